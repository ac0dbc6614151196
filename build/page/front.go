package page

// The front page: the waters, each with what is on around the reader's date, so that a reader is
// on a water's page in one tap. And the list of flies.

import (
	"cmp"
	"encoding/json"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/now"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// FrontPageModel is the front page.
type FrontPageModel struct {
	view.Frame
	About  string
	Waters []FrontWater
	Data   template.HTML
	Visits content.Figure
	Flies  content.Figure
	Years  string
	Sieve  lang.Link
	Key    lang.Link
	Search lang.Link
	Paper  []lang.Link // the booklet
	Begin  []lang.Link // notes that the guide wants in front
}

// FrontWater is one water.
type FrontWater struct {
	Unlooked string // as in OnView
	Number   string
	Water    lang.Link
	About    string
	Seasons  []view.SeasonView
	SVG      template.HTML // flies to expect, over the half-months that somebody looked in
	Expect   string        // the same in words
	Cells    []now.OnCell  // for readers without scripts: months, a few flies each
	Known    string
}

// frontData is what the script looks up: for each water, runs of days with the flies on, most likely first,
// as places in the list of flies.
type frontData struct {
	Flies  []frontFly   `json:"flies"`
	Waters []frontWater `json:"waters"`
}

// frontFly is a fly and its drawing at the page's one scale.
type frontFly struct {
	Name    string `json:"n"`
	Href    string `json:"h"`
	Drawing string `json:"i,omitempty"`
	Width   string `json:"w,omitempty"`
	Height  string `json:"t,omitempty"`
}

// frontWater is a water's year. C is the chances of the flies named, day by day through the runs, in two digits
// of per cent each.
type frontWater struct {
	Runs  []frontRun        `json:"r"`
	C     string            `json:"c"`
	Basis map[string]string `json:"e"` // by fly: of each month, as in flyData
}

// frontRun is [from, to, how many are on, the first few].
type frontRun struct {
	From, To, On int
	First        []int
}

func (r frontRun) MarshalJSON() ([]byte, error) {
	return json.Marshal([]any{r.From, r.To, r.On, r.First})
}

// frontFlies is how many flies the front page names for a water; frontScale is CSS pixels to a millimetre, and
// frontWide the most that a drawing takes.
const (
	frontFlies = 3
	frontScale = 2.2
	frontWide  = 96.0
)

func (p *Printer) front() FrontPageModel {
	w := p.words
	title := cmp.Or(p.Settings().Name, w.Plain("front.title"))
	m := FrontPageModel{Frame: p.Frame("front", view.FrontPage, title, view.ToolStyle, "search.js"), About: p.Settings().About,
		Sieve: p.Link(view.FrontPage, view.SievePage, w.Plain("nav.sieve")), Key: p.Link(view.FrontPage, view.KeyPage, w.Plain("nav.key")),
		Search: p.Link(view.FrontPage, view.SearchPage, w.Plain("nav.search"))}
	m.Run = p.Run(view.FrontPage, "today.js", "front.js")
	m.Paper = p.PaperLinks(view.FrontPage, nil)
	m.Description = w.Plain("front.description", "guide", title)
	visits, years := 0, []int{}
	for i, water := range p.book.Waters {
		visits += water.Visits
		years = append(years, water.Years...)
		m.Waters = append(m.Waters, p.frontWater(i, water))
	}
	slices.Sort(years)
	years = slices.Compact(years)
	b := view.OwnVisits("", visits, len(years))
	m.Visits, m.Years = view.Count(visits, b), w.Years(years)
	m.Flies = view.Count(len(p.book.Flies), b)
	m.Data = view.JsonBlock("front-data", p.frontData())
	for _, n := range p.Notes() {
		m.Begin = append(m.Begin, p.Link(view.FrontPage, view.NotePage(n.Address), n.Title))
	}
	return m
}

func (p *Printer) frontWater(i int, water *figures.Water) FrontWater {
	w := p.words
	fw := FrontWater{Number: strconv.Itoa(i), Water: p.WaterLink(view.FrontPage, water), About: p.KindAndAltitude(water), Seasons: p.Seasons(water),
		Unlooked: view.UnlookedCells(water), Known: w.Plain("count.visits", "n", strconv.Itoa(water.Visits))}
	if water.Visits == 0 {
		fw.Known = w.Plain("river.no_visits")
	}
	var year chart.Year
	var sums []string
	for m := range 12 {
		sum := 0.0
		for _, g := range water.Groups {
			sum += g.Sum[m]
		}
		year.Months[m] = chart.Month{Chance: min(sum/mostExpected, 1), State: chart.Own}
		if !lookedIn(water, m+1) {
			year.Months[m].State = chart.Unlooked
		}
		sums = append(sums, w.ShortMonth(m+1)+" "+w.Number(content.Decimal(content.Round9(sum), 1)))
		c := now.OnCell{Cell: w.Month(m + 1), Unlooked: !lookedIn(water, m+1)}
		for k, r := range water.OnMonth(time.Month(m + 1)) {
			if k < frontFlies {
				c.Flies = append(c.Flies, lang.Link{Text: r.Fly.Name.S})
			}
		}
		fw.Cells = append(fw.Cells, c)
	}
	for c := range calendar.Cell(calendar.Cells) {
		if water.Coverage.Looked(c) {
			year.Cells[c] = chart.CellLooked
		}
		for _, r := range water.Rows {
			if r.Cells[c].State == figures.CellFound {
				year.Cells[c] = chart.CellFound
			}
		}
	}
	fw.SVG, fw.Expect = year.SVG(), strings.Join(sums, w.Plain("list.comma"))
	return fw
}

// mostExpected is how many flies a full bar stands for, the same on every water.
const mostExpected = 4.0

func (p *Printer) frontData() frontData {
	data := frontData{Flies: []frontFly{}}
	place := map[*figures.Fly]int{}
	scale := p.ScaleOf(p.book.Flies, frontWide, frontScale)
	for _, w := range p.book.Waters {
		x := frontWater{Basis: map[string]string{}, Runs: frontRuns(w, func(r *figures.Row) int {
			i, ok := place[r.Fly]
			if !ok {
				i = len(data.Flies)
				place[r.Fly] = i
				f := frontFly{Name: r.Fly.Name.S, Href: p.Deps.Site.Link(view.FrontPage, view.FlyPage(r.Fly))}
				pic := p.RowPicture(view.FrontPage, r.Fly, scale)
				f.Drawing, f.Width, f.Height = pic.Src, pic.Width, pic.Height
				data.Flies = append(data.Flies, f)
			}
			return i
		})}
		x.C = chancesOf(w, x.Runs, place)
		for _, r := range w.Rows {
			if i, ok := place[r.Fly]; ok && isNamed(x.Runs, i) {
				marks := ""
				for m := range r.Months {
					marks += view.BasisMark(&r.Months[m])
				}
				x.Basis[strconv.Itoa(i)] = marks
			}
		}
		data.Waters = append(data.Waters, x)
	}
	return data
}

func isNamed(runs []frontRun, fly int) bool {
	return slices.ContainsFunc(runs, func(r frontRun) bool { return slices.Contains(r.First, fly) })
}

// chancesOf are the chances of the flies named, in per cent of two digits; what is on is never under one per cent, so
// 00 stands for more than 99.
func chancesOf(w *figures.Water, runs []frontRun, place map[*figures.Fly]int) string {
	by := map[int]*figures.Row{}
	for _, r := range w.Rows {
		if i, ok := place[r.Fly]; ok {
			by[i] = r
		}
	}
	var out strings.Builder
	for _, run := range runs {
		for d := run.From; d <= run.To; d++ {
			for _, i := range run.First {
				fmt.Fprintf(&out, "%02d", int(math.Round(content.Round9(by[i].Chance[d-1]*100)))%100)
			}
		}
	}
	return out.String()
}

// frontRuns are runs of days with the same flies on in the same order.
func frontRuns(w *figures.Water, place func(*figures.Row) int) []frontRun {
	out := []frontRun{}
	for d := calendar.Day(1); d <= calendar.Year; d++ {
		on := w.OnDay(d)
		first := []int{}
		for i := 0; i < len(on) && i < frontFlies; i++ {
			first = append(first, place(on[i]))
		}
		if n := len(out) - 1; n >= 0 && out[n].On == len(on) && slices.Equal(out[n].First, first) {
			out[n].To = int(d)
			continue
		}
		out = append(out, frontRun{int(d), int(d), len(on), first})
	}
	return out
}

// FliesModel is the list of flies.
type FliesModel struct {
	view.Frame
	Groups []FliesGroup
	Count  content.Figure
}

// FliesGroup is one group's flies.
type FliesGroup struct {
	ID, Name string
	LandBred bool
	Flies    []FlyLine
}

// FlyLine is one fly of the list.
type FlyLine struct {
	Fly        lang.Link
	Scientific string
	Also       string
	Length     string
	Picture    view.Picture
	Flights    []string
}

func (p *Printer) flies() FliesModel {
	w := p.words
	m := FliesModel{Frame: p.Frame("flies", view.FliesPage, w.Plain("flies.title"))}
	m.Count = view.Count(len(p.book.Flies), content.On(content.Part{Ground: content.OwnStatement}))
	m.Description = w.Plain("flies.description", "guide", p.Settings().Name)
	scale := p.ScaleOf(p.book.Flies, now.RowWide, now.RowScale)
	for _, f := range p.book.Flies {
		n := len(m.Groups) - 1
		name := w.Or("groups_of", string(f.Group))
		if n < 0 || m.Groups[n].Name != name {
			m.Groups = append(m.Groups, FliesGroup{ID: "g-" + view.CleanID(string(f.Group)), Name: name, LandBred: f.Group == species.LandBred})
			n++
		}
		l := FlyLine{Fly: p.FlyLink(view.FliesPage, f), Scientific: f.Scientific.Name.S, Picture: p.RowPicture(view.FliesPage, f, scale)}
		if pic := p.FlyPicture(f); pic.LengthMM > 0 {
			l.Length = w.Amount(p.Length(pic.LengthMM, 1, view.Grounded(pic.Ground.Basis)))
		}
		l.Also = p.AlsoCalled(f.Account)
		for _, fl := range f.Account.Flights {
			if fl.From.Valid() && fl.To.Valid() {
				l.Flights = append(l.Flights, w.Plain("date.range", "from", w.DayOf(fl.From).Text, "to", w.DayOf(fl.To).Text))
			}
		}
		m.Groups[n].Flies = append(m.Groups[n].Flies, l)
	}
	return m
}
