package page

// A water's page, the heart of the site: what is on around a date stands first, after what must
// stand before advice; then the year, sizes, dressings, and how well the water is known.

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/daylight"
)

// RiverPage is a water's page.
type RiverPage struct {
	Frame
	Lead      string // "spring-fed, 35–110 m, gravel over chalk"
	Facts     []Fact
	About     string
	Seasons   []SeasonView
	Hazards   []string
	Code      string
	Meet      string
	At        string // the meeting place's coordinates
	Cautions  Link
	Visits    content.Figure
	Years     string
	RecordsTo Date
	On        OnView
	Bars      []BarsView
	Chances   []ChancesRow
	Groups    *GroupsView
	Grid      GridView
	Hours     *HoursView
	Sizes     []FlySizes
	Flies     []RiverFly
	KeyLink   Link
	Paper     []Link // card and booklet
	TripLink  Link
	Photos    []PhotoView
	Known     KnownView
	Right     RightView
	Warmth    *WarmthView
	Ahead     []AheadView
	Rules     string
	Access    string
	Data      Link
	Unlisted  bool // a fly was found that the list lacks
}

// Fact is one line of the head.
type Fact struct {
	Name  string
	Text  string
	Range Range
}

// SeasonView is the fishing season for one fish; the days are for the script, as day numbers.
type SeasonView struct {
	Fish             string
	Open, Close      Date
	Shut, ShutTo     Date // the close season
	OpenDay, LastDay string
	AllYear          bool
	Checked          Date
	Stale            bool // checked more than a year before the build
	Note             string
}

// BarsView is one fly's monthly bars, with their table where that isn't the page's own.
type BarsView struct {
	ID       string
	Fly      Link
	Heading  string
	LandBred bool
	Unlisted bool
	Never    string // "looked for on 14 visits, never found"
	Chart    ChartView
	Months   []MonthView
	Finds    []Date // of the build year
	FindsIn  string
}

// ChancesRow is one fly's twelve months in a line of the page's one table. It links to the fly's page,
// where each month's figure is taken apart.
type ChancesRow struct {
	Fly    Link
	Rests  string // "own records; common practice"
	Months []ChancesCell
}

// ChancesCell is a month with the range of its chance in words.
type ChancesCell struct {
	MonthView
	Span string
}

// GroupsView is flies to expect by group.
type GroupsView struct {
	Chart  ChartView
	Months []string
	Rows   []GroupRow
}

// RiverFly is everything else about one fly on this water.
type RiverFly struct {
	ID       string
	Fly      Link
	Class    string
	LandBred bool
	Unlisted bool
	Prompts  []string
	Flights  []FlightView
	Compared *CompareView
	Advice   []StageAdvice
	Alike    *AlikesView
	Basis    Basis
}

func (p *Printer) river(w *figures.Water) (RiverPage, error) {
	at := waterPage(w)
	words := p.words
	m := RiverPage{Frame: p.frame("river", at, w.Name.S, "closer.js"), About: w.About.S,
		Code: w.Code.S, Meet: w.Meet.S, At: meetAt(w), Rules: w.Rules.S, Access: w.Access.S,
		Cautions: p.link(at, CautionsPage, words.Plain("river.all_cautions")),
		Years:    words.years(w.Years), RecordsTo: words.date(w.RecordsTo),
		KeyLink:  p.link(at, waterKeyPage(w), words.Plain("river.key", "water", w.Name.S)),
		TripLink: p.link(at, tripPage(w), words.Plain("nav.trip"))}
	m.Run = p.run(at, "today.js")
	m.Paper = p.paperLinks(at, w)
	m.Description = words.Plain("river.description", "water", w.Name.S, "about", p.kindAndAltitude(w))
	m.Visits = count(w.Visits, ownVisits(w.Name.S, w.Visits, len(w.Years)))
	lead := []string{p.kindAndAltitude(w)}
	if w.Bed.S != "" {
		lead = append(lead, w.Bed.S)
	}
	m.Lead = strings.Join(lead, words.Plain("list.comma"))
	m.Facts = p.facts(w)
	for _, h := range w.Hazards {
		m.Hazards = append(m.Hazards, h.S)
	}
	m.Seasons = p.seasons(w)
	m.On = p.on(at, w)
	var err error
	for i, r := range w.Rows {
		b, e := p.bars(at, flyID("bars", i), r)
		if e != nil && err == nil {
			err = e
		}
		m.Chances = append(m.Chances, p.chancesRow(at, r, b.Months))
		b.Fly, b.Months = Link{r.Fly.Name.S, "#" + flyID("fly", i)}, nil
		m.Bars = append(m.Bars, b)
		m.Unlisted = m.Unlisted || !r.Listed
		m.Flies = append(m.Flies, RiverFly{
			ID: flyID("fly", i), Fly: p.flyLink(at, r.Fly), Class: words.Or("class", string(r.Class)),
			LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed, Prompts: promptsOf(r.Prompts), Flights: p.flights(at, r),
			Compared: p.differing(at, r.Compared), Advice: p.shortAdvice(at, r.Fly, r.Dressings), Alike: p.fewAlike(at, r.Alike, r.MoreAlike), Basis: p.basis(at, r.Fly.Basis)})
		if s := p.sizes(at, r.Sizes); len(s) > 0 {
			m.Sizes = append(m.Sizes, FlySizes{p.flyLink(at, r.Fly), s})
		}
	}
	if err != nil {
		return m, err
	}
	if len(w.Groups) > 0 {
		g := GroupsView{Rows: p.groupRows(w)}
		if g.Chart, err = p.drawChart(at, chartsFile(at), groupsChart(w), p.stackedChart("groups", w)); err != nil {
			return m, err
		}
		for i := 1; i <= 12; i++ {
			g.Months = append(g.Months, words.shortMonth(i))
		}
		m.Groups = &g
	}
	m.Grid = p.grid(at, w)
	m.Hours = p.hours(at, w)
	m.Known = p.known(w)
	m.Right = p.rightness(w)
	m.Warmth = p.warmth(at, w)
	m.Ahead = p.ahead(at, w)
	m.Photos = p.withPhotos(&m.Frame, p.waterPhotos(at, w))
	return m, nil
}

func promptsOf(list []content.Problem) []string {
	var out []string
	for _, x := range list {
		if !slices.Contains(out, x.Message) {
			out = append(out, x.Message)
		}
	}
	return out
}

// FlySizes is the sizes of one fly.
type FlySizes struct {
	Fly  Link
	Rows []SizeView
}

func (p *Printer) facts(w *figures.Water) []Fact {
	words := p.words
	var out []Fact
	add := func(word, text string) {
		if text != "" {
			out = append(out, Fact{Name: words.Plain("fact." + word), Text: text})
		}
	}
	if w.Kind != "" {
		add("kind", words.Or("kind", string(w.Kind)))
	}
	if a := p.altitude(w.Altitude, w.Basis); a.Known() {
		out = append(out, Fact{Name: words.Plain("fact.altitude"), Range: a})
	}
	add("bed", w.Bed.S)
	var beats []string
	for _, b := range w.Beats {
		beats = append(beats, b.Name.S)
	}
	add("beats", strings.Join(beats, words.Plain("list.comma")))
	if w.HasPlace {
		add("place", w.Place.String())
	}
	if w.Zone != nil {
		add("zone", w.ZoneName)
	}
	var also []string
	for _, a := range w.Also {
		also = append(also, a.S)
	}
	add("also", strings.Join(also, words.Plain("list.comma")))
	return out
}

func (p *Printer) seasons(w *figures.Water) []SeasonView {
	var out []SeasonView
	for _, s := range w.Seasons {
		v := SeasonView{Fish: s.Fish.S, Open: p.words.day(s.Open), Close: p.words.day(s.Close), Checked: p.words.date(s.Checked), Note: s.Note.S}
		v.Stale = !s.Checked.IsZero() && !p.book.Built.IsZero() && p.book.Built.Sub(s.Checked) > 365
		if s.Open.Valid() && s.Close.Valid() {
			v.AllYear = calendar.Fwd(s.Open, s.Close) == calendar.Year-1
			v.Shut, v.ShutTo = p.words.day(s.Close.Add(1)), p.words.day(s.Open.Add(-1))
			if !v.AllYear {
				v.OpenDay, v.LastDay = strconv.Itoa(int(s.Open)), strconv.Itoa(int(s.Close))
			}
		}
		out = append(out, v)
	}
	return out
}

// bars is one fly's monthly chart on one water, with its table.
func (p *Printer) bars(at, id string, r *figures.Row) (BarsView, error) {
	b := BarsView{ID: id, Heading: p.barHeading(r), LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed, Months: p.months(at, r)}
	if r.Looked > 0 && r.FoundOn == 0 {
		b.Never = p.words.Plain("never_found", "n", strconv.Itoa(r.Looked))
	}
	for _, d := range r.ThisYear {
		b.FindsIn = strconv.Itoa(d.Year)
		b.Finds = append(b.Finds, Date{p.words.day(d.OfYear()).Text, d.String()})
	}
	var err error
	b.Chart, err = p.drawChart(at, chartsFile(flyPage(r.Fly)), rowChart(r), p.monthlyChart(id+"-c", r))
	return b, err
}

func (p *Printer) chancesRow(at string, r *figures.Row, months []MonthView) ChancesRow {
	fly := p.flyLink(at, r.Fly)
	fly.Href += "#" + flyID("bars", slices.Index(r.Fly.Rows, r))
	var all content.Basis
	for _, m := range r.Months {
		for _, part := range m.Basis.Parts() {
			// the rest differs from month to month
			all = all.With(content.On(content.Part{Ground: part.Ground, Source: part.Source, Water: part.Water}))
		}
	}
	var rests []string
	for _, g := range p.basis(at, all).Items {
		rests = append(rests, g.Text)
	}
	row := ChancesRow{Fly: fly, Rests: strings.Join(rests, "; ")}
	for _, m := range months {
		row.Months = append(row.Months, ChancesCell{m, p.words.Range(m.Range)})
	}
	return row
}

// GridView is the year as 24 half-months × flies in three states.
type GridView struct {
	Months []string
	Halves []GridHalf
	Groups []GridGroup
}

// GridHalf heads one column.
type GridHalf struct{ Short, Long string }

// GridGroup is the rows of one group.
type GridGroup struct {
	Group string
	Rows  []GridRow
}

// GridRow is one fly's year.
type GridRow struct {
	Fly      Link
	Unlisted bool
	Cells    []GridCell
}

// GridCell is one half-month: f found, l looked for and not found, u nobody looked.
type GridCell struct {
	State         string
	Found, Looked content.Figure
}

func (p *Printer) grid(at string, w *figures.Water) GridView {
	var g GridView
	for i := 1; i <= 12; i++ {
		g.Months = append(g.Months, p.words.shortMonth(i))
	}
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		g.Halves = append(g.Halves, GridHalf{strconv.Itoa(c.First().DayOfMonth()), p.words.cell(c)})
	}
	for i, r := range w.Rows {
		group := p.words.Or("groups_of", string(r.Fly.Group))
		if len(g.Groups) == 0 || g.Groups[len(g.Groups)-1].Group != group {
			g.Groups = append(g.Groups, GridGroup{Group: group})
		}
		row := GridRow{Fly: Link{r.Fly.Name.S, "#" + flyID("fly", i)}, Unlisted: !r.Listed}
		for _, c := range r.Cells {
			row.Cells = append(row.Cells, gridCell(w, c))
		}
		last := &g.Groups[len(g.Groups)-1]
		last.Rows = append(last.Rows, row)
	}
	return g
}

// HoursView is the hours of each stage, month by month, against the sun.
type HoursView struct {
	Zone   string
	Months []string
	Sun    []SunRow
	Rows   []HoursRow
}

// SunRow is one event of the sun on the 15th of each month.
type SunRow struct {
	Event string
	Times []string
}

// HoursRow is one fly's stage.
type HoursRow struct {
	Fly     Link
	Case    string
	Written string
	Times   []string
	Basis   Basis
}

func (p *Printer) hours(at string, w *figures.Water) *HoursView {
	h := HoursView{Zone: w.ZoneName}
	for i := 1; i <= 12; i++ {
		h.Months = append(h.Months, p.words.shortMonth(i))
	}
	if w.HasSun() {
		events := []SunRow{{Event: p.words.Plain("sun.rise")}, {Event: p.words.Plain("sun.set")}}
		for _, s := range w.Sun {
			for i, e := range []daylight.Event{s.Rise, s.Set} {
				text := p.words.Or("sun", e.Missing)
				if e.Missing == "" {
					text = e.Clock().String()
				}
				events[i].Times = append(events[i].Times, text)
			}
		}
		h.Sun = events
	}
	for i, r := range w.Rows {
		at0 := len(h.Rows)
		for _, x := range r.Hours {
			who := p.caseOf(x.Stage, x.Sex, x.Flight)
			written := p.withOthers(x, func(s figures.Stretch) string { return p.words.Span(s.Span) })
			n := len(h.Rows) - 1
			if n < at0 || h.Rows[n].Case != who || h.Rows[n].Written != written {
				h.Rows = append(h.Rows, HoursRow{Fly: Link{r.Fly.Name.S, "#" + flyID("fly", i)}, Case: who, Written: written,
					Times: make([]string, 12), Basis: p.basis(at, withoutSun(x.Basis))})
				n++
			}
			if x.Month >= 1 && x.Month <= 12 {
				h.Rows[n].Times[x.Month-1] = p.clock(x.Stretch)
			}
		}
	}
	if len(h.Rows) == 0 && len(h.Sun) == 0 {
		return nil
	}
	return &h
}

// withoutSun leaves out the equations of the sun, which the table names once for all its rows.
func withoutSun(b content.Basis) content.Basis {
	var parts []content.Part
	for _, part := range b.Parts() {
		if part.Ground != content.Published || part.Source != "sun" {
			parts = append(parts, part)
		}
	}
	return content.On(parts...)
}

func (p *Printer) riverSheet(w *figures.Water) Sheet {
	return Sheet{waterPage(w), func() (Drawn, error) {
		m, err := p.river(w)
		if err != nil {
			return Drawn{}, err
		}
		html, err := p.draw("river", m)
		return Drawn{HTML: html}, err
	}, func() (any, error) { return p.river(w) }}
}

// jsonBlock is data for a script, in an attribute of an element that shows nothing: a block of data
// in a script element counts as an inline script, which the site's policy forbids.
func jsonBlock(id string, data []byte) template.HTML {
	return template.HTML(fmt.Sprintf(`<template id="%s" data-json='%s'></template>`, id, bytes.ReplaceAll(data, []byte("'"), []byte(`\u0027`))))
}
