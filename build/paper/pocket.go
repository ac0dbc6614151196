package paper

// The pocket card of a water: quarters of A4 across, in the order in which they are wanted: what to mind, the year,
// hours and hooks, the flies at life size, what to tie on. Rows go into a quarter by counted letters, whole flies only. A
// guess that fails costs room and loses nothing: a panel has no height of its own, grows, and the next one moves on.

import (
	"html/template"
	"strconv"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/content/calendar"
)

// PocketPage is the card.
type PocketPage struct {
	view.Frame
	Lead    string
	Water   lang.Link
	Booklet lang.Link
	Cover   CoverView
	Code    string
	Meet    string
	At      string // the meeting place's coordinates
	Web     AddressView
	Panels  []PanelView // after the cover
}

// CoverView is what stands on the cover beside the emergency panel.
type CoverView struct {
	Seasons       []PaperSeason
	Rules, Access string
	Hazards, Mind []string
}

// PanelView is one quarter: a part of the year's strips, of the tables, of the drawings, or lines for notes.
type PanelView struct {
	ID, Kind, Title string
	Of              string // "1 of 3"; "" where there is but one
	Strips          *StripsView
	Signs           []SignView
	Models          []string
	Rows            []PaperRow // of hours and hooks
	Ties            []PaperRow
	Sun             []view.SunRow
	Months          []string // of Sun
	Outlines        []OutlineView
	Bar             template.HTML
	Under           []string   // beneath, in its last panel
	Lines           []struct{} // ruled lines
}

// StripsView is the year of several flies.
type StripsView struct {
	Name   string // of the water
	Months []string
	Years  []StripView
}

// StripView is a fly's year in half-months.
type StripView struct {
	Fly      string
	LandBred bool
	Unlisted bool
	SVG      template.HTML
	Words    string // the same in words
}

// SignView explains one sign of the strips.
type SignView struct {
	SVG  template.HTML
	Word string
}

// What a panel holds in mm, and how wide a letter of 8 points is taken to be: half an em and a fifth for wide fonts.
const (
	panelWide  = 136.5
	panelHigh  = 92.0
	panelHead  = 9.5 // its title and the head of its table
	lineHigh   = 3.45
	letterWide = 1.76
	stripHigh  = 3.9
	barHigh    = 12.0 // the scale bar and its words
	noteLines  = 9    // of 8.4 mm
)

// letters is how many letters stand on a line so many mm wide.
func letters(mm float64) int { return int(mm / letterWide) }

func (p *Printer) pocket(w *figures.Water) PocketPage {
	at, words := view.PocketPage(w), p.words
	m := PocketPage{Frame: p.paperFrame("card", at, words.Plain("pocket.title", "water", w.Name.S)), Lead: p.KindAndAltitude(w),
		Water: p.WaterLink(at, w), Booklet: p.Link(at, view.WaterBooklet(w), words.Plain("booklet.of", "water", w.Name.S)),
		Cover: p.cover(w), Code: w.Code.S, Meet: w.Meet.S, At: view.MeetAt(w), Web: p.webAddress(view.WaterPage(w))}
	m.Way = []lang.Link{p.WaterLink(at, w)}
	m.Description = words.Plain("pocket.description", "water", w.Name.S)
	for _, part := range [][]PanelView{p.yearPanels(w), p.stagePanels(w), p.lifePanels(w), p.tiePanels(w)} {
		for i := range part {
			if len(part) > 1 {
				part[i].Of = words.Plain("pocket.of", "k", strconv.Itoa(i+1), "n", strconv.Itoa(len(part)))
			}
		}
		m.Panels = append(m.Panels, part...)
	}
	if (len(m.Panels)+1)%4 != 0 { // a quarter is free
		m.Panels = append(m.Panels, PanelView{Kind: "notes", Title: words.Plain("paper.notes"), Lines: make([]struct{}, noteLines)})
	}
	for i := range m.Panels {
		m.Panels[i].ID = "panel-" + strconv.Itoa(i+1)
	}
	return m
}

func (p *Printer) cover(w *figures.Water) CoverView {
	c := CoverView{Seasons: p.paperSeasons(w), Rules: w.Rules.S, Access: w.Access.S}
	for _, h := range w.Hazards {
		c.Hazards = append(c.Hazards, h.S)
	}
	for _, k := range []string{"wade", "lines", "alone", "clean"} {
		c.Mind = append(c.Mind, p.words.Plain("pocket.mind."+k))
	}
	return c
}

// inPanels parts a list into panels: each takes items as long as they have room, in mm, and one at least.
func inPanels[T any](list []T, room float64, high func(T) float64) [][]T {
	var out [][]T
	left := 0.0
	for _, x := range list {
		h := high(x)
		if left -= h; len(out) == 0 || left < 0 {
			out, left = append(out, nil), room-h
		}
		out[len(out)-1] = append(out[len(out)-1], x)
	}
	return out
}

func (p *Printer) yearPanels(w *figures.Water) []PanelView {
	panel := PanelView{Kind: "year", Title: p.words.Plain("pocket.year"), Signs: p.signs()}
	if len(w.Rows) == 0 {
		panel.Signs, panel.Under = nil, []string{p.words.Plain("river.no_flies")}
		return []PanelView{panel}
	}
	room := panelHigh - panelHead - 3*lineHigh // the signs
	var out []PanelView
	for _, rows := range inPanels(w.Rows, room, func(r *figures.Row) float64 {
		return max(stripHigh, lineHigh*float64(linesOf(stripName(p, r), letters(.29*panelWide))))
	}) {
		strips := p.strips(w)
		for _, r := range rows {
			strips.Years = append(strips.Years, p.strip(r))
		}
		panel.Strips = &strips
		out = append(out, panel)
	}
	return out
}

// flyRows are a fly's rows in a table, which stand together.
type flyRows struct {
	name string
	rows []PaperRow
}

// stagePanels are hours, lengths and hooks, with the sun's own hours below where hours hang on them.
func (p *Printer) stagePanels(w *figures.Water) []PanelView {
	words := p.words
	var flies []flyRows
	var all []PaperRow
	var unknown []string
	suns := map[calendar.Sun]bool{}
	for _, r := range w.Rows {
		rows := p.stageRows(r)
		if len(rows) == 0 {
			unknown = append(unknown, r.Fly.Name.S)
			continue
		}
		flies, all = append(flies, flyRows{r.Fly.Name.S, rows}), append(all, rows...)
		for _, row := range rows {
			for _, s := range row.suns {
				suns[s] = true
			}
		}
	}
	models := models(all)
	panel := PanelView{Kind: "stages", Title: words.Plain("pocket.hours"), Models: models, Sun: p.SunRowsOf(w, suns), Months: p.strips(w).Months}
	under := []string{words.Plain("paper.lengths")}
	if len(models) > 0 {
		under = append([]string{words.Plain("paper.models")}, under...)
	}
	if len(panel.Sun) > 0 && w.ZoneName != "" {
		under = append(under, words.Plain("hours_table.zone", "zone", w.ZoneName))
	}
	if len(unknown) > 0 {
		under = append(under, words.Plain("pocket.unknown", "flies", words.List(unknown)))
	}
	room := panelHigh - panelHead - 2*lineHigh*float64(len(panel.Sun))
	if len(panel.Sun) > 0 {
		room -= lineHigh
	}
	var out []PanelView
	for _, part := range inPanels(flies, room, stagesHigh) {
		panel.Rows = nil
		for _, f := range part {
			panel.Rows = append(panel.Rows, f.rows...)
		}
		inModels(panel.Rows, models)
		out = append(out, panel)
	}
	if len(out) == 0 {
		return nil
	}
	out[len(out)-1].Under = under
	return out
}

// stagesHigh is the height of a fly's rows in the table of hours and hooks, by its columns (templates/css/card.css).
func stagesHigh(f flyRows) float64 {
	lines := 0
	for _, r := range f.rows {
		hours := 0
		for _, h := range r.Hours {
			hours += linesOf(h, letters(.27*panelWide))
		}
		lines += max(1, hours, linesOf(r.Stage, letters(.186*panelWide)), len(r.Lengths))
	}
	return lineHigh*float64(max(lines, linesOf(f.name, letters(.197*panelWide)))) + .4
}

// tiePanels say what to tie on, stage by stage.
func (p *Printer) tiePanels(w *figures.Water) []PanelView {
	words := p.words
	panel := PanelView{Kind: "ties", Title: words.Plain("pocket.ties")}
	var flies []flyRows
	var untied []string
	for _, r := range w.Rows {
		if rows := p.tieRows(r); len(rows) > 0 {
			flies = append(flies, flyRows{r.Fly.Name.S, rows})
		} else {
			untied = append(untied, r.Fly.Name.S)
		}
	}
	var out []PanelView
	for _, part := range inPanels(flies, panelHigh-panelHead, tiesHigh) {
		panel.Ties = nil
		for _, f := range part {
			panel.Ties = append(panel.Ties, f.rows...)
		}
		out = append(out, panel)
	}
	if len(out) == 0 {
		panel.Under = []string{words.Plain("pocket.no_ties")}
		return []PanelView{panel}
	}
	last := &out[len(out)-1]
	last.Under = []string{words.Plain("pocket.ties_about")}
	if len(untied) > 0 {
		last.Under = append(last.Under, words.Plain("pocket.untied", "flies", words.List(untied)))
	}
	return out
}

func tiesHigh(f flyRows) float64 {
	lines := 0
	for _, r := range f.rows {
		var s []string
		for _, t := range r.Ties {
			s = append(s, t.Name, t.Hook+",")
		}
		lines += max(linesOf(r.Stage+" "+r.Level, letters(.24*panelWide)), linesOf(strings.Join(s, " "), letters(.52*panelWide)))
	}
	return lineHigh*float64(max(lines, linesOf(f.name, letters(.24*panelWide)))) + .4
}

// lifePanels draw the flies at life size, one beside the other as far as a panel is wide.
func (p *Printer) lifePanels(w *figures.Water) []PanelView {
	const gap, least = 2.0, 30.0
	words := p.words
	panel := PanelView{Kind: "life", Title: words.Plain("pocket.outlines"), Bar: chart.ScaleBar(50, words.Plain("paper.bar"))}
	var drawn []OutlineView
	undrawn := 0
	for _, r := range w.Rows {
		before := len(drawn)
		for _, s := range toOutline(r.Fly, r.Sizes) {
			if o, ok := p.outline(view.PocketPage(w), r.Fly, s); ok {
				if o.From = ""; s.Hook.From == figures.FromAccount {
					o.From = words.Plain("paper.from_account")
				}
				drawn = append(drawn, o)
			}
		}
		if len(drawn) == before {
			undrawn++
		}
	}
	type shelf struct {
		list []OutlineView
		high float64
	}
	var shelves []shelf
	x := 0.0
	for _, o := range drawn {
		wide := max(o.wide, least)
		per := letters(wide)
		high := o.high + 2 + lineHigh*float64(linesOf(o.Fly+" "+o.Case+" "+words.Amount(o.Length), per))
		if x += wide + gap; len(shelves) == 0 || x > panelWide+gap {
			shelves, x = append(shelves, shelf{}), wide+gap
		}
		s := &shelves[len(shelves)-1]
		s.list, s.high = append(s.list, o), max(s.high, high+gap)
	}
	var out []PanelView
	for _, part := range inPanels(shelves, panelHigh-panelHead+4-barHigh, func(s shelf) float64 { return s.high }) {
		panel.Outlines = nil
		for _, s := range part {
			panel.Outlines = append(panel.Outlines, s.list...)
		}
		out = append(out, panel)
	}
	if len(out) == 0 {
		panel.Bar, panel.Under = "", []string{words.Plain("pocket.no_outlines")}
		return []PanelView{panel}
	}
	last := &out[len(out)-1]
	last.Under = []string{words.Plain("pocket.outlines_about")}
	if undrawn > 0 {
		last.Under = append(last.Under, words.Plain("pocket.undrawn", "n", view.Count(undrawn, view.OwnVisits(w.Name.S, w.Visits, len(w.Years)))))
	}
	return out
}

// linesOf is how many lines a text takes at so many characters a line.
func linesOf(text string, per int) int {
	n, room := 1, per
	for _, word := range strings.Fields(text) {
		l := len([]rune(word))
		if l+1 > room && room < per {
			n, room = n+1, per
		}
		for l > per {
			n, l = n+1, l-per
		}
		room -= l + 1
	}
	return n
}

// stripName is what stands beside a strip.
func stripName(p *Printer, r *figures.Row) string {
	name := r.Fly.Name.S
	if !r.Fly.Group.WaterBred() {
		name += " " + p.words.Plain("tag.land_bred")
	}
	if !r.Listed {
		name += " " + p.words.Plain("tag.unlisted")
	}
	return name
}

func (p *Printer) strips(w *figures.Water) StripsView {
	v := StripsView{Name: w.Name.S}
	for i := 1; i <= 12; i++ {
		v.Months = append(v.Months, p.words.ShortMonth(i))
	}
	return v
}

// strip draws a fly's year on a water.
func (p *Printer) strip(r *figures.Row) StripView {
	v := StripView{Fly: r.Fly.Name.S, LandBred: !r.Fly.Group.WaterBred(), Unlisted: !r.Listed}
	var year [calendar.Cells]chart.HalfMonth
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		sum, n := 0.0, 0
		for d := c.First(); d <= c.Last(); d++ {
			sum += r.Chance[d-1]
			n++
		}
		year[c] = chart.HalfMonth{Grade: chart.GradeOf(r.OnCells[c], sum/float64(n)), Seen: view.SeenAs(r.Cells[c].State)}
	}
	v.SVG = chart.YearStrip(year)
	v.Words = p.stripWords(year)
	return v
}

var gradeWords = [...]string{chart.GradeNone: "none", chart.GradeSome: "some", chart.GradeMany: "many", chart.GradeMost: "most"}

var seenWords = [...]string{chart.CellUnlooked: "unlooked", chart.CellLooked: "looked", chart.CellFound: "found"}

// stripWords says a strip in words, for those who don't see it: runs of one grade, and where it was found.
func (p *Printer) stripWords(year [calendar.Cells]chart.HalfMonth) string {
	var s []string
	run := func(from, to calendar.Cell, key string) {
		s = append(s, p.words.Plain("paper.run", "what", p.words.Plain(key), "from", p.words.DayOf(from.First()).Text, "to", p.words.DayOf(to.Last()).Text))
	}
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		to := c
		for to+1 < calendar.Cells && year[to+1].Grade == year[c].Grade {
			to++
		}
		if year[c].Grade != chart.GradeNone {
			run(c, to, "paper.grade."+gradeWords[year[c].Grade])
		}
		c = to
	}
	for c := calendar.Cell(0); c < calendar.Cells; c++ {
		to := c
		for to+1 < calendar.Cells && year[to+1].Seen == year[c].Seen {
			to++
		}
		run(c, to, "paper.seen."+seenWords[year[c].Seen])
		c = to
	}
	return strings.Join(s, p.words.Plain("list.semicolon"))
}

// signs explain the strips.
func (p *Printer) signs() []SignView {
	var out []SignView
	for _, g := range []chart.Grade{chart.GradeMost, chart.GradeMany, chart.GradeSome, chart.GradeNone} {
		out = append(out, SignView{chart.GradeSign(g), p.words.Plain("paper.grade." + gradeWords[g])})
	}
	for _, c := range []chart.Cell{chart.CellFound, chart.CellLooked, chart.CellUnlooked} {
		out = append(out, SignView{chart.SeenSign(c), p.words.Plain("paper.seen." + seenWords[c])})
	}
	return out
}

func (p *Printer) pocketSheet(w *figures.Water) view.Sheet {
	return view.Sheet{Address: view.PocketPage(w), Draw: func() (view.Drawn, error) {
		html, err := p.Draw("card", p.pocket(w))
		return view.Drawn{HTML: html}, err
	}, Model: func() (any, error) { return p.pocket(w), nil }}
}

// paperFrame is the frame of a page made for paper: styles of its own, and the script of its button.
func (p *Printer) paperFrame(kind, at, title string) view.Frame {
	f := p.Frame(kind, at, title, "print.js")
	f.Styles = append(f.Styles, p.Deps.Site.Link(at, view.Assets+"paper.css"), p.Deps.Site.Link(at, view.Assets+kind+".css"))
	f.Print = ""
	return f
}
