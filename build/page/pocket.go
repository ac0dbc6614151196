package page

// The pocket card of a water: one A4 sheet, printed on two sides and folded twice to a quarter.
// What a sheet can hold is settled here and not by the browser: the flies most likely to be met
// come first, and the card says how many are left out. Side one is of use without side two.

import (
	"html/template"
	"slices"
	"strings"

	"guidegen/build/chart"
	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
)

// PocketPage is the card.
type PocketPage struct {
	Frame
	Lead     string
	Water    Link
	Booklet  Link
	Cover    CoverView
	Code     string
	Meet     string
	At       string // the meeting place's coordinates
	Web      AddressView
	Strips   StripsView
	Signs    []SignView
	Models   []string
	Rows     []PaperRow
	Ties     []PaperRow
	NoRow    MissingView // flies of the strips that have no row in Rows, in Ties, for want of room
	NoTie    MissingView
	Unknown  MissingView // of which nothing is known that would stand in Rows
	Untied   MissingView // for which there is no dressing
	Hours    bool
	Zone     string
	Sun      []SunRow
	Outlines []OutlineView
	Undrawn  content.Figure
	Bar      template.HTML
	LeftOut  content.Figure
	Flies    content.Figure
	Lines    []struct{} // ruled lines for notes
}

// MissingView names flies that a table lacks: some of them, and how many more.
type MissingView struct {
	Flies string
	More  content.Figure
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

func pocketPage(w *figures.Water) string { return "card/" + w.Address + ".html" }

// What a side holds, in millimetres of its type and in characters to a line, found by printing:
// the tests print cards of hard guides and look for what runs over.
const (
	pocketStrips  = 73.0 // height of the strips
	stripHeight   = 3.9  // of one, and of a further line of its name
	pocketName    = 25   // characters of a fly's name beside its strip
	pocketStages  = 178.0
	pocketTies    = 178.0
	lineHeight    = 2.97 // of a line in a table
	rowPadding    = 0.45
	noteHeight    = 8.0 // of a ruled line
	pocketMissing = 60  // characters of names that a table lacks
	outlineWide   = 136.0
	outlineHigh   = 172.0
)

func (p *Printer) pocket(w *figures.Water) PocketPage {
	at, words := pocketPage(w), p.words
	m := PocketPage{Frame: p.paperFrame("card", at, words.Plain("pocket.title", "water", w.Name.S)), Lead: p.kindAndAltitude(w),
		Water: p.waterLink(at, w), Booklet: p.link(at, waterBooklet(w), words.Plain("booklet.of", "water", w.Name.S)),
		Cover: p.cover(w), Code: w.Code.S, Meet: w.Meet.S, At: meetAt(w), Web: p.webAddress(waterPage(w)), Zone: w.ZoneName,
		Signs: p.signs(), Bar: chart.ScaleBar(50, words.Plain("paper.bar"))}
	m.Way = []Link{p.waterLink(at, w)}
	m.Description = words.Plain("pocket.description", "water", w.Name.S)
	m.Strips = p.strips(w)
	b := ownVisits(w.Name.S, w.Visits, len(w.Years))
	shown, stages, ties := p.pocketRows(w)
	m.Rows, m.NoRow, m.Unknown = p.pocketTable(w, shown, stages, b)
	m.Ties, m.NoTie, m.Untied = p.pocketTable(w, shown, ties, b)
	for _, r := range w.Rows {
		if slices.Contains(shown, r) {
			m.Strips.Years = append(m.Strips.Years, p.strip(r))
		}
	}
	m.Models = models(m.Rows)
	inModels(m.Rows, m.Models)
	for _, r := range m.Rows {
		m.Hours = m.Hours || len(r.Hours) > 0
	}
	m.Flies = count(len(shown), b)
	if n := len(w.Rows) - len(shown); n > 0 {
		m.LeftOut = count(n, b)
	}
	var undrawn int
	m.Outlines, undrawn = p.pocketOutlines(w, shown)
	if undrawn > 0 {
		m.Undrawn = count(undrawn, b)
	}
	high := 8.0 // the heading of the notes
	fly, n := "", 0
	for _, r := range m.Ties {
		if r.rows > 0 {
			fly, n = r.Fly.Text, r.rows
		}
		high += tieHeight(r, fly, n)
	}
	if n := int((pocketTies - high) / noteHeight); n > 0 {
		m.Lines = make([]struct{}, n)
	}
	return m
}

// pocketRows takes the likeliest flies as long as there is room, each table for itself: the strips
// hold most, since the year is what a card is looked at for first. A fly that a table has no room
// for is absent from its map; one of which the table has nothing to say has no rows there.
func (p *Printer) pocketRows(w *figures.Water) (shown []*figures.Row, stages, ties map[*figures.Row][]PaperRow) {
	take := func(room float64, high func(*figures.Row) float64) map[*figures.Row]bool {
		taken := map[*figures.Row]bool{}
		for _, r := range likeliest(w.Rows) {
			if room -= high(r); room < 0 && len(taken) > 0 {
				break
			}
			taken[r] = true
		}
		return taken
	}
	table := func(room float64, rows func(*figures.Row) []PaperRow, high func(r PaperRow, fly string, rows int) float64) map[*figures.Row][]PaperRow {
		of := map[*figures.Row][]PaperRow{}
		taken := take(room, func(r *figures.Row) (mm float64) {
			of[r] = rows(r)
			for _, row := range of[r] {
				mm += high(row, r.Fly.Name.S, len(of[r]))
			}
			return mm
		})
		for r := range of {
			if !taken[r] {
				delete(of, r)
			}
		}
		return of
	}
	strips := take(pocketStrips, func(r *figures.Row) float64 { return stripHeight * float64(linesOf(stripName(p, r), pocketName)) })
	for _, r := range w.Rows {
		if strips[r] {
			shown = append(shown, r)
		}
	}
	return shown, table(pocketStages, p.stageRows, stageHeight), table(pocketTies, p.tieRows, tieHeight)
}

// pocketTable gives the rows of a table in page order, and the flies of the strips that it lacks.
func (p *Printer) pocketTable(w *figures.Water, shown []*figures.Row, of map[*figures.Row][]PaperRow, b content.Basis) (rows []PaperRow, noRoom, nothing MissingView) {
	var without, empty []string
	for _, r := range w.Rows {
		list, taken := of[r]
		rows = append(rows, list...)
		switch {
		case !slices.Contains(shown, r):
		case !taken:
			without = append(without, r.Fly.Name.S)
		case len(list) == 0:
			empty = append(empty, r.Fly.Name.S)
		}
	}
	return rows, p.missing(without, b), p.missing(empty, b)
}

// missing names as many flies as have room, one at least, and counts the others.
func (p *Printer) missing(names []string, b content.Basis) MissingView {
	n, room := 0, pocketMissing
	for n < len(names) {
		if room -= len([]rune(names[n])) + 2; room < 0 && n > 0 {
			break
		}
		n++
	}
	if n < len(names) {
		return MissingView{strings.Join(names[:n], p.words.Plain("list.comma")), count(len(names)-n, b)}
	}
	return MissingView{Flies: p.words.list(names)}
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

// stageHeight estimates the height of a row in the table of stages. The fly's name stands beside all
// its rows and may take more lines than they have.
func stageHeight(r PaperRow, fly string, rows int) float64 {
	lines, filled := 1, 0
	for _, h := range r.Hours {
		n := len([]rune(h.Months+" "+h.Text)) + 2
		if filled > 0 && filled+n > 35 {
			lines, filled = lines+1, 0
		}
		filled += n
	}
	name := (linesOf(fly, 16) + boolInt(r.LandBred) + rows - 1) / rows
	return rowPadding + lineHeight*float64(max(lines, linesOf(r.Stage, 14), len(r.Lengths), name))
}

// tieHeight estimates the height of a row in the table of dressings.
func tieHeight(r PaperRow, fly string, rows int) float64 {
	var s []string
	for _, t := range r.Ties {
		s = append(s, t.Name, t.Hook+",")
	}
	name := (linesOf(fly, 18) + rows - 1) / rows
	return rowPadding + lineHeight*float64(max(linesOf(r.Stage+" "+r.Level, 36), linesOf(strings.Join(s, " "), 47), name))
}

func (p *Printer) strips(w *figures.Water) StripsView {
	v := StripsView{Name: w.Name.S}
	for i := 1; i <= 12; i++ {
		v.Months = append(v.Months, p.words.shortMonth(i))
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
		year[c] = chart.HalfMonth{Grade: chart.GradeOf(r.OnCells[c], sum/float64(n)), Seen: seenAs(r.Cells[c].State)}
	}
	v.SVG = chart.YearStrip(year)
	v.Words = p.stripWords(year)
	return v
}

func seenAs(s figures.CellState) chart.Cell {
	switch s {
	case figures.CellFound:
		return chart.CellFound
	case figures.CellLooked:
		return chart.CellLooked
	}
	return chart.CellUnlooked
}

var gradeWords = [...]string{chart.GradeNone: "none", chart.GradeSome: "some", chart.GradeMany: "many", chart.GradeMost: "most"}
var seenWords = [...]string{chart.CellUnlooked: "unlooked", chart.CellLooked: "looked", chart.CellFound: "found"}

// stripWords says a strip in words, for those who don't see it: runs of one grade, and where it was found.
func (p *Printer) stripWords(year [calendar.Cells]chart.HalfMonth) string {
	var s []string
	run := func(from, to calendar.Cell, key string) {
		s = append(s, p.words.Plain("paper.run", "what", p.words.Plain(key), "from", p.words.day(from.First()).Text, "to", p.words.day(to.Last()).Text))
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

// pocketOutlines draws the likeliest flies at life size, as many as stand on half a side.
func (p *Printer) pocketOutlines(w *figures.Water, shown []*figures.Row) (out []OutlineView, undrawn int) {
	const gap, least, line, letter = 2.0, 32.0, 2.9, 1.36
	x, y, high := 0.0, 0.0, 0.0
	for i, r := range likeliest(shown) {
		drawn := false
		for _, s := range toOutline(r.Fly, r.Sizes) {
			o, ok := p.outline(pocketPage(w), r.Fly, s)
			if !ok {
				continue
			}
			wide := max(o.wide, least)
			per := int(wide / letter)
			caption := 1.5 + line*float64(linesOf(o.Fly+" "+o.Case, per)+linesOf(p.words.amount(o.Length)+" "+o.From, per))
			wide += gap
			if x > 0 && x+wide > outlineWide+gap {
				x, y, high = 0, y+high+gap, 0
			}
			if y+max(high, o.high+caption) > outlineHigh {
				return out, len(shown) - i
			}
			x, high = x+wide, max(high, o.high+caption)
			out, drawn = append(out, o), true
		}
		if !drawn {
			undrawn++
		}
	}
	return out, undrawn
}

func (p *Printer) pocketSheet(w *figures.Water) Sheet {
	return Sheet{pocketPage(w), func() (Drawn, error) {
		html, err := p.draw("card", p.pocket(w))
		return Drawn{HTML: html}, err
	}, func() (any, error) { return p.pocket(w), nil }}
}

// paperFrame is the frame of a page made for paper: styles of its own, and the script of its button.
func (p *Printer) paperFrame(kind, at, title string) Frame {
	f := p.frame(kind, at, title, "print.js")
	f.Styles = append(f.Styles, p.deps.Site.Link(at, Assets+"paper.css"), p.deps.Site.Link(at, Assets+kind+".css"))
	f.Print = ""
	return f
}
