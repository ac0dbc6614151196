package page

// What to tie for a trip: a page for each water. A reader who chooses two dates gets the list
// reckoned on the device (assets/trip.js, by the rule of species/tying/trip.go); without scripts
// the lists of the twelve months stand there, reckoned when the page was made.

import (
	"html/template"
	"slices"
	"time"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species/tying"
)

// TripModel is one water's page.
type TripModel struct {
	view.Frame
	Water   lang.Link
	About   string
	Seasons []view.SeasonView
	Rules   string
	Enough  content.Figure
	Months  []TripMonth
	Words   template.HTML
	Data    template.HTML
}

// TripMonth is the list for a month.
type TripMonth struct {
	ID, Month string
	Shut      []string // what is closed in the month
	Unlikely  bool     // no fly is expected: these are outside chances
	Picks     []TripPick
	Short     content.Figure // the share covered, where nothing in the box adds more
	Nothing   []TripFly      // nothing in the box for these
	Left      []TripFly      // left when the list stops
}

// TripPick is one dressing of a list.
type TripPick struct {
	Picture  *view.Picture
	Dressing lang.Link
	Hooks    []string
	For      []TripFly
	Share    content.Figure
}

// TripFly is a fly with its stages.
type TripFly struct {
	Fly    lang.Link
	Stages string
}

func (p *Printer) trip(x *figures.Water) TripModel {
	at, w := view.TripPage(x), p.words
	m := TripModel{Frame: p.Frame("trip", at, w.Plain("trip.title", "water", x.Name.S), view.ToolStyle),
		Water: p.WaterLink(at, x), About: p.KindAndAltitude(x), Seasons: p.Seasons(x), Rules: x.Rules.S,
		Enough: view.Percent(p.book.Edition.Constants.Cover, content.Basis{}),
		Words:  p.WordBlock("trip", "percent", "dates", "list.semicolon")}
	m.Run = p.Run(at, "kit.js", "trip.js")
	m.Way = []lang.Link{m.Water}
	m.Description = w.Plain("trip.description", "water", x.Name.S)
	for i := time.January; i <= time.December; i++ {
		m.Months = append(m.Months, p.tripMonth(at, x, i))
	}
	m.Data = view.JsonBlock("trip-data", p.tripData(at, x))
	return m
}

func (p *Printer) tripMonth(at string, x *figures.Water, month time.Month) TripMonth {
	t := p.book.Trip(x, calendar.FirstOf(month), calendar.LastOf(month))
	out := TripMonth{ID: view.FlyID("m", int(month)), Month: p.words.Month(int(month)), Shut: p.ShutIn(x, month), Unlikely: !t.Expected && t.Sum > 0, Nothing: p.tripFlies(at, t.Nothing), Left: p.tripFlies(at, t.Left)}
	for _, k := range t.Picks {
		v := TripPick{Dressing: p.DressingLink(at, k.Dressing), Picture: p.dressingPicture(at, k.Dressing), For: p.tripFor(at, k.For)}
		var b content.Basis
		for _, s := range k.For {
			b = b.With(s.Row.Months[month-1].Basis.Grounded())
		}
		v.Share = view.Percent(k.Share, b)
		for _, h := range k.Hooks {
			v.Hooks = append(v.Hooks, p.HookText(h))
		}
		if h := p.TieHook(k.Dressing.Name.S, nil); len(v.Hooks) == 0 && h != "" {
			v.Hooks = []string{h}
		}
		out.Picks = append(out.Picks, v)
	}
	if n := len(out.Picks); n > 0 && t.Short {
		out.Short = out.Picks[n-1].Share
	}
	return out
}

// tripFor joins the stages of each fly that a dressing covers, and says where it does so by its group or kin.
func (p *Printer) tripFor(at string, list []figures.TripFor) []TripFly {
	var out []TripFly
	for i := 0; i < len(list); {
		var run []figures.FlyStage
		first := list[i]
		for ; i < len(list) && list[i].Row == first.Row && list[i].By == first.By; i++ {
			run = append(run, list[i].FlyStage)
		}
		f := p.tripFlies(at, run)[0]
		if first.By != tying.ByFly {
			f.Stages += p.words.Plain("list.comma") + p.words.Plain("trip.by_"+string(first.By))
		}
		out = append(out, f)
	}
	return out
}

// tripFlies joins the stages of each fly.
func (p *Printer) tripFlies(at string, list []figures.FlyStage) []TripFly {
	var out []TripFly
	stages := map[*figures.Row][]string{}
	var rows []*figures.Row
	for _, s := range list {
		if !slices.Contains(rows, s.Row) {
			rows = append(rows, s.Row)
		}
		stages[s.Row] = append(stages[s.Row], p.words.Or("stage", string(s.Stage)))
	}
	for _, r := range rows {
		out = append(out, TripFly{p.FlyLink(at, r.Fly), p.words.List(stages[r])})
	}
	return out
}

// tripData is what the script reckons with: each fly's chance day by day in thousandths, the days on which a list
// takes it, the flight that speaks for each day, and for each stage that fish meet the dressings that cover it.
type tripData struct {
	Enough    float64    `json:"enough"`
	Dressings []tripLink `json:"dressings"`
	Hooks     []tripHook `json:"hooks"`
	Flies     []tripFly  `json:"flies"`
}

type tripLink struct {
	Name string `json:"n"`
	Href string `json:"h"`
	Own  string `json:"k,omitempty"` // a dressing's own sizes, where none is nearest to the fly
	*view.Picture
}

// dressingPicture is a dressing at the scale of a list of them; nil where there is none.
func (p *Printer) dressingPicture(at string, d *figures.Dressing) *view.Picture {
	pic := p.Album.Dressing(d.Address)
	if !pic.Known() {
		return nil
	}
	w, h := pic.Pixels(min(tieScale, tieWide/pic.WidthMM))
	return &view.Picture{Src: p.Deps.Site.Link(at, pic.Address), Width: w, Height: h}
}

// tieWide is the most that a dressing of a list takes, in CSS pixels; tieScale what a millimetre takes at most.
const (
	tieWide  = 72.0
	tieScale = 4.0
)

type tripHook struct {
	Text string  `json:"t"`
	Step float64 `json:"s"`
}

type tripFly struct {
	tripLink
	Chance  []int       `json:"c"`
	Due     [][2]int    `json:"on"`          // runs of days on which it is due
	On      [][2]int    `json:"e,omitempty"` // runs of days on which it is on
	Flights [][3]int    `json:"f"`           // runs of days with the place of the flight that speaks for them
	Stages  []tripStage `json:"st"`
}

// tripStage lists, as [dressing, flight, hook, class], what covers it: hook -1 is no size known, class 0 tied for
// it, 1 for its group, 2 for its kin.
type tripStage struct {
	ID     string   `json:"id"`
	Word   string   `json:"w"`
	Serves [][4]int `json:"d"`
	Named  []int    `json:"u,omitempty"` // flights for which some dressing can't be scored
}

func (p *Printer) tripData(at string, x *figures.Water) tripData {
	d := tripData{Enough: p.book.Edition.Constants.Cover, Dressings: []tripLink{}, Hooks: []tripHook{}, Flies: []tripFly{}}
	dressings, hooks := map[string]int{}, map[tying.Hook]int{}
	for _, y := range p.book.Dressings {
		dressings[y.Name.S] = len(d.Dressings)
		d.Dressings = append(d.Dressings, tripLink{y.Name.S, p.Deps.Site.Link(at, view.DressingPage(y)), p.TieHook(y.Name.S, nil), p.dressingPicture(at, y)})
	}
	place := func(h tying.Hook) int {
		if h.Size == "" {
			return -1
		}
		i, known := hooks[h]
		if !known {
			i = len(d.Hooks)
			hooks[h] = i
			d.Hooks = append(d.Hooks, tripHook{p.HookText(h), h.Step})
		}
		return i
	}
	for _, r := range x.Rows {
		f := tripFly{tripLink: tripLink{Name: r.Fly.Name.S, Href: p.Deps.Site.Link(at, view.FlyPage(r.Fly))}, Stages: []tripStage{}}
		for i, c := range r.Chance {
			f.Chance = append(f.Chance, figures.PerMille(c))
			day := calendar.Day(i + 1)
			if _, due := r.DueBetween(day, day); due {
				f.Due = joinRuns(f.Due, int(day), int(day))
			}
			if r.OnBetween(day, day) {
				f.On = joinRuns(f.On, int(day), int(day))
			}
			flight := view.FlightPlace(r, r.FlightAt(day))
			if n := len(f.Flights) - 1; n >= 0 && f.Flights[n][2] == flight {
				f.Flights[n][1] = int(day)
			} else {
				f.Flights = append(f.Flights, [3]int{int(day), int(day), flight})
			}
		}
		if len(f.Due) == 0 {
			continue
		}
		for _, met := range r.Fly.Meets() {
			if r.Barred(met.Stage) {
				continue
			}
			s := tripStage{figures.FlyStage{Row: r, Stage: met.Stage}.ID(), p.words.Or("stage", string(met.Stage)), [][4]int{}, nil}
			for _, a := range r.Dressings {
				if a.Stage != met.Stage {
					continue
				}
				flight := view.FlightPlace(r, a.Flight)
				if len(a.Advice.NotScored) > 0 {
					s.Named = append(s.Named, flight)
				}
				for _, o := range a.Covering() {
					s.Serves = append(s.Serves, [4]int{dressings[o.Name], flight, place(o.Hook), o.Class()})
				}
			}
			f.Stages = append(f.Stages, s)
		}
		d.Flies = append(d.Flies, f)
	}
	return d
}

// joinRuns adds a run of days to those before it, joined to the last where they touch.
func joinRuns(runs [][2]int, from, to int) [][2]int {
	if n := len(runs) - 1; n >= 0 && runs[n][1]+1 == from {
		runs[n][1] = to
		return runs
	}
	return append(runs, [2]int{from, to})
}
