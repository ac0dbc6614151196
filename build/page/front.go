package page

// The front page: the waters, each with what is on around the reader's date, so that a reader is
// on a water's page in one tap. And the list of flies.

import (
	"cmp"
	"encoding/json"
	"html/template"
	"slices"
	"strconv"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// FrontPageModel is the front page.
type FrontPageModel struct {
	Frame
	About  string
	Waters []FrontWater
	Data   template.HTML
	Visits content.Figure
	Flies  content.Figure
	Years  string
	Sieve  Link
	Key    Link
	Search Link
	Paper  []Link // the booklet
	Begin  []Link // notes that the guide wants in front
}

// FrontWater is one water.
type FrontWater struct {
	Unlooked string // as in OnView
	Number   string
	Water    Link
	About    string
	Seasons  []SeasonView
	Cells    []OnCell // for readers without scripts: months, a few flies each
	Known    string
}

// frontData is what the script looks up: for each water, runs of days with the flies on, most
// likely first, as places in the list of names.
type frontData struct {
	Names  []string     `json:"names"`
	Waters []frontWater `json:"waters"`
}

type frontWater struct {
	Runs []frontRun `json:"r"`
}

// frontRun is [from, to, how many are on, the first few].
type frontRun struct {
	From, To, On int
	First        []int
}

func (r frontRun) MarshalJSON() ([]byte, error) {
	return json.Marshal([]any{r.From, r.To, r.On, r.First})
}

// frontFlies is how many flies the front page names for a water.
const frontFlies = 4

func (p *Printer) front() FrontPageModel {
	w := p.words
	title := p.settings().Name
	if title == "" {
		title = w.Plain("front.title")
	}
	m := FrontPageModel{Frame: p.frame("front", FrontPage, title, toolStyle, "search.js"), About: p.settings().About,
		Sieve: p.link(FrontPage, SievePage, w.Plain("nav.sieve")), Key: p.link(FrontPage, KeyPage, w.Plain("nav.key")),
		Search: p.link(FrontPage, SearchPage, w.Plain("nav.search"))}
	m.Run = p.run(FrontPage, "today.js")
	m.Paper = p.paperLinks(FrontPage, nil)
	m.Description = w.Plain("front.description", "guide", title)
	visits, years := 0, []int{}
	data := frontData{Names: []string{}}
	place := map[*figures.Fly]int{}
	for i, f := range p.book.Flies {
		place[f] = i
		data.Names = append(data.Names, f.Name.S)
	}
	for i, water := range p.book.Waters {
		visits += water.Visits
		years = append(years, water.Years...)
		fw := FrontWater{Number: strconv.Itoa(i), Water: p.waterLink(FrontPage, water), About: p.kindAndAltitude(water), Seasons: p.seasons(water)}
		fw.Unlooked = unlookedCells(water)
		fw.Known = w.Plain("count.visits", "n", strconv.Itoa(water.Visits))
		for mth := 1; mth <= 12; mth++ {
			c := OnCell{Cell: w.month(mth), Unlooked: !lookedIn(water, mth)}
			for _, r := range monthRows(water, mth) {
				if len(c.Flies) == frontFlies {
					break
				}
				c.Flies = append(c.Flies, Link{Text: r.Fly.Name.S})
			}
			fw.Cells = append(fw.Cells, c)
		}
		m.Waters = append(m.Waters, fw)
		data.Waters = append(data.Waters, frontWater{frontRuns(water, place)})
	}
	slices.Sort(years)
	years = slices.Compact(years)
	b := ownVisits("", visits, len(years))
	m.Visits, m.Years = count(visits, b), w.years(years)
	m.Flies = count(len(p.book.Flies), b)
	text, err := json.Marshal(data)
	if err != nil {
		panic(err) // numbers and strings only
	}
	m.Data = jsonBlock("front-data", text)
	for _, n := range p.notes() {
		m.Begin = append(m.Begin, p.link(FrontPage, notePage(n.Address), n.Title))
	}
	return m
}

// frontRuns are runs of days with the same flies on in the same order.
func frontRuns(w *figures.Water, place map[*figures.Fly]int) []frontRun {
	out := []frontRun{}
	for d := calendar.Day(1); d <= calendar.Year; d++ {
		var on []*figures.Row
		for _, r := range w.Rows {
			if stateOn(r, d) == figures.On {
				on = append(on, r)
			}
		}
		slices.SortStableFunc(on, func(a, b *figures.Row) int {
			return cmp.Or(cmp.Compare(content.Round9(b.Chance[d-1]), content.Round9(a.Chance[d-1])), byClass(a, b))
		})
		first := []int{}
		for i := 0; i < len(on) && i < frontFlies; i++ {
			first = append(first, place[on[i].Fly])
		}
		if n := len(out) - 1; n >= 0 && out[n].On == len(on) && slices.Equal(out[n].First, first) {
			out[n].To = int(d)
			continue
		}
		out = append(out, frontRun{int(d), int(d), len(on), first})
	}
	return out
}

func stateOn(r *figures.Row, d calendar.Day) figures.OnState {
	for _, run := range r.Runs {
		if run.From <= d && d <= run.To {
			return run.State
		}
	}
	return figures.Off
}

// monthRows lists a water's flies on in a month, most likely first.
func monthRows(w *figures.Water, month int) []*figures.Row {
	var on []*figures.Row
	for _, r := range w.Rows {
		if r.OnMonths[month-1] {
			on = append(on, r)
		}
	}
	slices.SortStableFunc(on, func(a, b *figures.Row) int {
		return cmp.Or(cmp.Compare(content.Round9(b.Months[month-1].Chance), content.Round9(a.Months[month-1].Chance)), byClass(a, b))
	})
	return on
}

// FliesModel is the list of flies.
type FliesModel struct {
	Frame
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
	Fly        Link
	Scientific string
	Also       string
	Flights    []string
	Waters     []Link
}

func (p *Printer) flies() FliesModel {
	w := p.words
	m := FliesModel{Frame: p.frame("flies", FliesPage, w.Plain("flies.title"))}
	m.Count = count(len(p.book.Flies), content.On(content.Part{Ground: content.OwnStatement}))
	m.Description = w.Plain("flies.description", "guide", p.settings().Name)
	for _, f := range p.book.Flies {
		n := len(m.Groups) - 1
		name := w.Or("groups_of", string(f.Group))
		if n < 0 || m.Groups[n].Name != name {
			m.Groups = append(m.Groups, FliesGroup{ID: "g-" + cleanID(string(f.Group)), Name: name, LandBred: f.Group == species.LandBred})
			n++
		}
		l := FlyLine{Fly: p.flyLink(FliesPage, f), Scientific: f.Scientific.Name.S}
		for _, fl := range f.Account.Flights {
			if fl.From.Valid() && fl.To.Valid() {
				l.Flights = append(l.Flights, w.Plain("date.range", "from", w.day(fl.From).Text, "to", w.day(fl.To).Text))
			}
		}
		for _, r := range f.Rows {
			l.Waters = append(l.Waters, p.waterLink(FliesPage, r.Water))
		}
		m.Groups[n].Flies = append(m.Groups[n].Flies, l)
	}
	return m
}
