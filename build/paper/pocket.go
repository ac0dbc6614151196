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

// What a panel holds in mm, and how wide a letter of 8 points is taken to be: half an em and a seventh for wide fonts.
const (
	panelWide  = 136.5
	panelHigh  = 92.0
	panelHead  = 9.5 // its title and the head of its table
	lineHigh   = 3.45
	letterWide = 1.62
	stripHigh  = 3.9
	barHigh    = 12.0 // the scale bar and its words
	noteLines  = 9    // of 8.4 mm
)

// letters is how many letters stand on a line so many mm wide.
func letters(mm float64) int { return int(mm / letterWide) }

// cardPrinter prints the card of a water.
type cardPrinter struct {
	printer
	at    string
	water *figures.Water
}

func (p cardPrinter) page() PocketPage {
	at, w, words := p.at, p.water, p.words
	m := PocketPage{Frame: p.paperFrame("card", at, words.Plain("pocket.title", "water", w.Name.S)), Lead: p.KindAndAltitude(w),
		Water: p.WaterLink(at, w), Booklet: p.Link(at, view.WaterBooklet(w), words.Plain("booklet.of", "water", w.Name.S)),
		Cover: p.cover(), Code: w.Code.S, Meet: w.Meet.S, At: view.MeetAt(w), Web: p.webAddress(view.WaterPage(w))}
	m.Way = []lang.Link{p.WaterLink(at, w)}
	m.Description = words.Plain("pocket.description", "water", w.Name.S)
	for _, part := range [][]PanelView{p.yearPanels(), p.stagePanels(), p.lifePanels(), p.tiePanels()} {
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

func (p cardPrinter) cover() CoverView {
	w := p.water
	c := CoverView{Seasons: p.paperSeasons(w), Rules: w.Rules.S, Access: w.Access.S}
	for _, h := range w.Hazards {
		c.Hazards = append(c.Hazards, lang.UpperFirst(h.S))
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

func (p cardPrinter) yearPanels() []PanelView {
	w := p.water
	panel := PanelView{Kind: "year", Title: p.words.Plain("pocket.year"), Signs: p.signs()}
	if len(w.Rows) == 0 {
		panel.Signs, panel.Under = nil, []string{p.words.Plain("river.no_flies")}
		return []PanelView{panel}
	}
	room := panelHigh - panelHead - 3*lineHigh // the signs
	var out []PanelView
	for _, rows := range inPanels(w.Rows, room, func(r *figures.Row) float64 {
		return max(stripHigh, lineHigh*float64(linesOf(p.stripName(r), letters(.29*panelWide))))
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
func (p cardPrinter) stagePanels() []PanelView {
	w, words := p.water, p.words
	var flies []flyRows
	var all []PaperRow
	var unknown []string
	for _, r := range w.Rows {
		rows := p.stageRows(r)
		if len(rows) == 0 {
			unknown = append(unknown, r.Fly.Name.S)
			continue
		}
		flies, all = append(flies, flyRows{r.Fly.Name.S, rows}), append(all, rows...)
	}
	models := models(all)
	panel := PanelView{Kind: "stages", Title: words.Plain("pocket.hours"), Models: models, Sun: p.SunRowsOf(w, sunsOf(all)), Months: p.strips(w).Months}
	under := []string{words.Plain("paper.lengths")}
	if len(models) > 0 {
		under = append([]string{words.Plain("paper.models")}, under...)
	}
	if len(panel.Sun) > 0 && w.ZoneName != "" {
		under = append(under, words.Plain("hours_table.zone", "zone", w.ZoneName))
	}
	if torn := p.torn(w); torn != "" {
		under = append(under, torn)
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
func (p cardPrinter) tiePanels() []PanelView {
	words := p.words
	panel := PanelView{Kind: "ties", Title: words.Plain("pocket.ties")}
	var flies []flyRows
	var untied []string
	for _, r := range p.water.Rows {
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
		if len(s) == 0 {
			s = []string{r.Untied}
		}
		lines += max(linesOf(r.Stage+" "+r.Level, letters(.34*panelWide)), linesOf(strings.Join(s, " "), letters(.48*panelWide)))
	}
	return lineHigh*float64(max(lines, linesOf(f.name, letters(.18*panelWide)))) + .4
}

// lifePanels draw the flies at life size, one beside the other as far as a panel is wide.
func (p cardPrinter) lifePanels() []PanelView {
	const gap, least = 2.0, 25.0
	w, words := p.water, p.words
	panel := PanelView{Kind: "life", Title: words.Plain("pocket.outlines"), Bar: chart.ScaleBar(50, words.Plain("paper.bar"))}
	var drawn []OutlineView
	undrawn := 0
	for _, r := range w.Rows {
		before := len(drawn)
		for _, s := range toOutline(r.Fly, r.Sizes) {
			if o, ok := p.outline(p.at, r.Fly, s); ok {
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
		high := o.high + 2 + lineHigh*float64(linesOf(o.Fly+" "+o.Case+" "+words.Amount(o.Length)+" "+o.Tip, per))
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
func (p cardPrinter) stripName(r *figures.Row) string {
	name := r.Fly.Name.S
	if !r.Fly.Group.WaterBred() {
		name += " " + p.words.Plain("tag.land_bred")
	}
	if !r.Listed {
		name += " " + p.words.Plain("tag.unlisted")
	}
	return name
}
