package page

// A water's page, the heart of the site: what is on around a date stands first, after what must
// stand before advice; then the year, sizes, dressings, and how well the water is known.

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/now"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// RiverPage is a water's page.
type RiverPage struct {
	view.Frame
	Lead      string // "spring-fed, 12–55 m"
	Visited   bool
	Visits    content.Figure
	Years     string
	Facts     []view.Fact
	About     string
	Seasons   []view.SeasonView
	Hazards   []string
	Code      string
	Meet      string
	At        string // the meeting place's coordinates
	Cautions  lang.Link
	RecordsTo lang.Date
	On        now.OnView
	Year      []YearGroup
	Closer    *Closer
	Months    []string
	Hours     *HoursView
	Sizes     *SizesView
	Box       BoxView
	KeyLink   lang.Link
	Paper     []lang.Link // card and booklet
	Calendar  lang.Link
	TripLink  lang.Link
	Records   lang.Link
	Photos    []PhotoView
	Known     view.KnownView
	Right     view.RightView
	Warmth    *view.WarmthView
	Ahead     view.AheadView
	Prompts   []string
	Rules     string
	Access    string
	Unlisted  bool // a fly was found that the list lacks
}

// YearGroup is the years of one group's flies.
type YearGroup struct {
	Group, What string // "Sedges", "water-bred: emergence"
	Flies       []YearRow
}

// YearRow is a fly's year on a water: the drawing, and its figures in twelve cells.
type YearRow struct {
	ID       string
	Name     lang.Link
	About    string // how common
	Unlisted bool
	SVG      template.HTML
	Band     string // the half-months in words
	Cells    []YearCellView
}

// YearCellView is one month: its chance, and in words all that the bar shows.
type YearCellView struct {
	Month   string
	Chance  content.Figure
	Little  bool   // under one per cent: a dot stands for it
	Reading string // "May: 46 %, range 24–69 %; found on 5 of 10 visits"
}

func (p *Printer) river(w *figures.Water) RiverPage {
	at := view.WaterPage(w)
	words := p.words
	m := RiverPage{Frame: p.Frame("river", at, w.Name.S), About: w.About.S,
		Code: w.Code.S, Meet: w.Meet.S, At: view.MeetAt(w), Rules: w.Rules.S, Access: w.Access.S,
		Cautions: p.Link(at, view.CautionsPage, words.Plain("river.all_cautions")),
		Years:    words.Plain("count.years", "n", strconv.Itoa(len(w.Years))), RecordsTo: words.DateOf(w.RecordsTo),
		KeyLink:  p.Link(at, view.WaterKeyPage(w), words.Plain("river.key", "water", w.Name.S)),
		TripLink: p.Link(at, view.TripPage(w), words.Plain("river.trip")),
		Records:  p.Link(at, view.RecordsPage+"#"+view.FlyID("w", slices.Index(p.book.Waters, w)), words.Plain("river.records"))}
	m.Run = p.Run(at, "today.js", "rows.js", "river.js")
	m.Paper = p.PaperLinks(at, w)
	m.Description = words.Plain("river.description", "water", w.Name.S, "about", p.KindAndAltitude(w))
	m.Visited, m.Visits = w.Visits > 0, view.Count(w.Visits, view.OwnVisits(w.Name.S, w.Visits, len(w.Years)))
	m.Lead = p.KindAndAltitude(w)
	m.Facts = p.Facts(w)
	for _, h := range w.Hazards {
		m.Hazards = append(m.Hazards, h.S)
	}
	m.Seasons = p.Seasons(w)
	m.On = now.On(p.Printer, p.book, at, w)
	m.Year, m.Closer = p.yearOf(at, w), p.closerOfWater(at, w)
	if m.Closer != nil {
		m.Library = p.Deps.Site.Link(at, view.Assets+"echarts.js")
	}
	for i := 1; i <= 12; i++ {
		m.Months = append(m.Months, words.ShortMonth(i))
	}
	for _, r := range w.Rows {
		m.Unlisted = m.Unlisted || !r.Listed
	}
	m.Hours = p.hours(at, w)
	m.Sizes = p.sizeTable(at, w)
	m.Box = p.box(at, w)
	m.Known = p.Known(at, w)
	m.Right = p.Rightness(w)
	m.Warmth = p.Warmth(at, w)
	m.Ahead = p.Ahead(at, w)
	m.Prompts = p.riverPrompts(w)
	m.Photos = p.withPhotos(&m.Frame, p.waterPhotos(at, w))
	return m
}

// riverPrompts are what somebody should look at in this water's records, each said once.
func (p *Printer) riverPrompts(w *figures.Water) []string {
	var out []string
	for _, r := range w.Rows {
		for _, s := range p.promptsOf(r.Prompts) {
			if !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	return out
}

// yearOf is the year of every fly of a water, group by group.
func (p *Printer) yearOf(at string, w *figures.Water) []YearGroup {
	var out []YearGroup
	for i, r := range w.Rows {
		group := p.words.Or("groups_of", string(r.Fly.Group))
		if len(out) == 0 || out[len(out)-1].Group != group {
			out = append(out, YearGroup{Group: group, What: p.words.Plain(barsOf(r.Fly.Group))})
		}
		g := &out[len(out)-1]
		row := p.yearRow(p.FlyLink(at, r.Fly), r)
		row.ID = view.FlyID("fly", i)
		g.Flies = append(g.Flies, row)
	}
	return out
}

// barsOf says what a group's bars show: land-bred flies never emerge from the water, and only upwinged flies are
// counted as duns and spinners.
func barsOf(g species.Group) string {
	switch {
	case !g.WaterBred():
		return "bars.on_the_water"
	case g == species.Upwinged:
		return "bars.duns_and_spinners"
	}
	return "bars.emergence"
}

// yearRow is one fly's year on one water, under a name: the fly's, or the water's.
func (p *Printer) yearRow(name lang.Link, r *figures.Row) YearRow {
	y := YearRow{Name: name, About: p.words.Or("class", string(r.Class)), Unlisted: !r.Listed,
		SVG: p.chartYear(name.Text, r).SVG(), Band: p.bandWords(r)}
	for i := range r.Months {
		y.Cells = append(y.Cells, p.yearCell(p.MonthView(r, i), &r.Months[i], r))
	}
	return y
}

func (p *Printer) yearCell(v view.MonthView, m *figures.MonthHere, r *figures.Row) YearCellView {
	c := YearCellView{Month: v.Month, Chance: v.Chance, Little: v.Chance.Known() && content.Round9(m.Chance*100) < 0.5}
	said := []string{p.Counted(m)}
	if v.Chance.Known() {
		first := p.words.Amount(v.Chance)
		if span := p.words.Range(v.Range); span != "" && !c.Little {
			first = p.words.Plain("reading.range", "chance", first, "span", span)
		}
		said = append([]string{first}, said...)
	} else {
		said = []string{v.Word}
	}
	if m.Looked > 0 && m.Thin && v.Chance.Known() {
		said = append(said, v.Word)
	}
	if v.Unreviewed.Known() {
		said = append(said, p.words.Plain("months.unreviewed", "n", v.Unreviewed))
	}
	if v.Held.Known() {
		said = append(said, p.words.Plain("months.held", "n", v.Held))
	}
	for _, d := range r.ThisYear {
		if p.words.Month(int(d.Month)) == v.Month {
			said = append(said, p.words.Plain("bars.find", "date", p.words.DateOf(d).Text))
		}
	}
	c.Reading = p.words.Plain("reading.month", "month", v.Month, "says", strings.Join(said, p.words.Plain("list.semicolon")))
	return c
}

// bandWords says the half-months in their three states: "found 1 May–15 August; looked for, not found …".
func (p *Printer) bandWords(r *figures.Row) string {
	var out []string
	for _, s := range []struct {
		state figures.CellState
		word  string
	}{{figures.CellFound, "state.found"}, {figures.CellLooked, "state.looked"}, {figures.CellUnlooked, "state.unlooked"}} {
		if runs := p.words.CellRuns(func(c calendar.Cell) bool { return r.Cells[c].State == s.state }); runs != "" {
			out = append(out, p.words.Plain(s.word)+" "+runs)
		}
	}
	return strings.Join(out, p.words.Plain("list.semicolon"))
}

// promptsOf words prompts, each text once.
func (p *Printer) promptsOf(list []figures.Prompt) []string {
	var out []string
	for _, x := range list {
		args := slices.Clone(x.Args)
		for i, a := range args {
			switch d := a.(type) {
			case calendar.Day:
				args[i] = p.words.DayOf(d)
			case calendar.Date:
				args[i] = p.words.DateOf(d)
			}
		}
		if text := p.words.Plain("prompt."+x.ID, args...); !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}
