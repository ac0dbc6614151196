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
	"guidegen/species"
)

// RiverPage is a water's page.
type RiverPage struct {
	Frame
	Lead      string // "spring-fed, 12–55 m"
	Visited   bool
	Visits    content.Figure
	Years     string
	Facts     []Fact
	About     string
	Seasons   []SeasonView
	Hazards   []string
	Code      string
	Meet      string
	At        string // the meeting place's coordinates
	Cautions  Link
	RecordsTo Date
	On        OnView
	Year      []YearGroup
	Closer    *Closer
	Months    []string
	Hours     *HoursView
	Sizes     *SizesView
	Box       BoxView
	KeyLink   Link
	Paper     []Link // card and booklet
	Calendar  Link
	TripLink  Link
	Records   Link
	Photos    []PhotoView
	Known     KnownView
	Right     RightView
	Warmth    *WarmthView
	Ahead     []AheadView
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
	Name     Link
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

func (p *Printer) river(w *figures.Water) (RiverPage, error) {
	at := waterPage(w)
	words := p.words
	m := RiverPage{Frame: p.frame("river", at, w.Name.S), About: w.About.S,
		Code: w.Code.S, Meet: w.Meet.S, At: meetAt(w), Rules: w.Rules.S, Access: w.Access.S,
		Cautions: p.link(at, CautionsPage, words.Plain("river.all_cautions")),
		Years:    words.Plain("count.years", "n", strconv.Itoa(len(w.Years))), RecordsTo: words.date(w.RecordsTo),
		KeyLink:  p.link(at, waterKeyPage(w), words.Plain("river.key", "water", w.Name.S)),
		TripLink: p.link(at, tripPage(w), words.Plain("river.trip")),
		Records:  p.link(at, RecordsPage+"#"+flyID("w", slices.Index(p.book.Waters, w)), words.Plain("river.records"))}
	m.Run = p.run(at, "today.js", "rows.js", "river.js")
	m.Paper = p.paperLinks(at, w)
	m.Description = words.Plain("river.description", "water", w.Name.S, "about", p.kindAndAltitude(w))
	m.Visited, m.Visits = w.Visits > 0, count(w.Visits, ownVisits(w.Name.S, w.Visits, len(w.Years)))
	m.Lead = p.kindAndAltitude(w)
	m.Facts = p.facts(w)
	for _, h := range w.Hazards {
		m.Hazards = append(m.Hazards, h.S)
	}
	m.Seasons = p.seasons(w)
	m.On = p.on(at, w)
	m.Year, m.Closer = p.yearOf(at, w), p.closerOfWater(at, w)
	if m.Closer != nil {
		m.Library = p.deps.Site.Link(at, Assets+"echarts.js")
	}
	for i := 1; i <= 12; i++ {
		m.Months = append(m.Months, words.shortMonth(i))
	}
	for _, r := range w.Rows {
		m.Unlisted = m.Unlisted || !r.Listed
	}
	m.Hours = p.hours(at, w)
	m.Sizes = p.sizeTable(at, w)
	m.Box = p.box(at, w)
	m.Known = p.known(at, w)
	m.Right = p.rightness(w)
	m.Warmth = p.warmth(at, w)
	m.Ahead = p.ahead(at, w)
	m.Prompts = p.riverPrompts(w)
	m.Photos = p.withPhotos(&m.Frame, p.waterPhotos(at, w))
	return m, nil
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
		row := p.yearRow(p.flyLink(at, r.Fly), r, false)
		row.ID = flyID("fly", i)
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

// yearRow is one fly's year on one water, under a name: the fly's, or the water's. Based says of each month too what its
// chance is based on.
func (p *Printer) yearRow(name Link, r *figures.Row, based bool) YearRow {
	y := YearRow{Name: name, About: p.words.Or("class", string(r.Class)), Unlisted: !r.Listed,
		SVG: p.chartYear(name.Text, r).SVG(), Band: p.bandWords(r)}
	for i := range r.Months {
		y.Cells = append(y.Cells, p.yearCell(p.monthView(r, i), &r.Months[i], r, based))
	}
	return y
}

func (p *Printer) yearCell(v MonthView, m *figures.MonthHere, r *figures.Row, based bool) YearCellView {
	c := YearCellView{Month: v.Month, Chance: v.Chance, Little: v.Chance.Known() && content.Round9(m.Chance*100) < 0.5}
	said := []string{p.counted(m)}
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
		if p.words.month(int(d.Month)) == v.Month {
			said = append(said, p.words.Plain("bars.find", "date", p.words.date(d).Text))
		}
	}
	if on := p.restsOn(v); based && on != "" {
		said = append(said, on)
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
		var runs []string
		for c := 0; c < len(r.Cells); c++ {
			if r.Cells[c].State != s.state {
				continue
			}
			from := c
			for c+1 < len(r.Cells) && r.Cells[c+1].State == s.state {
				c++
			}
			runs = append(runs, p.words.Plain("range", "low", p.words.day(calendar.Cell(from).First()).Text,
				"high", p.words.day(calendar.Cell(c).Last()).Text))
		}
		if len(runs) > 0 {
			out = append(out, p.words.Plain(s.word)+" "+strings.Join(runs, p.words.Plain("list.comma")))
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
			if d, ok := a.(calendar.Day); ok {
				args[i] = p.words.day(d)
			}
		}
		if text := p.words.Plain("prompt."+x.ID, args...); !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
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
