package chart

// Signs for paper: the year of a fly as a strip of half-months, a bar to check
// the printer by, and a grid of squares. All is ink on white: shapes and
// hatching, never a shade that a copier could lose.

import (
	"html/template"
	"slices"

	"guidegen/content/measure"
)

// Grade is how much of a fly there is in one half-month.
type Grade uint8

const (
	GradeNone Grade = iota
	GradeSome       // on, below a fifth of visits
	GradeMany       // a fifth of visits or more
	GradeMost       // half of visits or more
)

// The lowest chances of the two upper grades.
const (
	ManyFrom = 0.2
	MostFrom = 0.5
)

// GradeOf gives the grade of a chance on a visit; on says whether the fly counts
// as on at all.
func GradeOf(on bool, chance float64) Grade {
	switch {
	case !on:
		return GradeNone
	case measure.Round9(chance) >= MostFrom:
		return GradeMost
	case measure.Round9(chance) >= ManyFrom:
		return GradeMany
	}
	return GradeSome
}

// HalfMonth is one cell of a strip: how much is to be expected, and what was
// looked for there.
type HalfMonth struct {
	Grade Grade
	Seen  Cell
}

// A half-month on a strip is 10 units wide; the grade stands above, what was
// looked for below.
const (
	stripHalf  = 10.0
	gradeHigh  = 6.0
	seenTop    = 6.8
	seenMiddle = 7.8
	stripHigh  = 9.0
)

// YearStrip draws a fly's 24 half-months side by side, 12 of 24 units to a
// month. It is hidden from those who don't see it: the words go beside it.
func YearStrip(year [24]HalfMonth) template.HTML {
	g := &pen{make([]byte, 0, 800)}
	g.raw(`<svg class="strip" viewBox="0 0 240 `, number(stripHigh), `" aria-hidden="true"><path class="s-frame" d="M0 0H240V`,
		number(gradeHigh), `H0Z"/><path class="s-months" d="M19.8 3h200.4"/>`)
	halves(g, year[:])
	g.raw("</svg>")
	return template.HTML(g.out)
}

// GradeSign and SeenSign draw what a strip shows above or below its line alone, for a legend.
func GradeSign(g Grade) template.HTML { return sign(HalfMonth{g, cellBlank}) }
func SeenSign(c Cell) template.HTML   { return sign(HalfMonth{GradeNone, c}) }

const cellBlank Cell = 255 // nothing is said

func sign(h HalfMonth) template.HTML {
	g := &pen{make([]byte, 0, 300)}
	g.raw(`<svg class="strip-sign" viewBox="-.2 -.2 10.4 `, number(stripHigh+.4), `" aria-hidden="true">`)
	if h.Seen == cellBlank {
		g.raw(`<path class="s-frame" d="M0 0H10V`, number(gradeHigh), `H0Z"/>`)
	}
	halves(g, []HalfMonth{h})
	g.raw("</svg>")
	return template.HTML(g.out)
}

// A mark is a line along half-months that templates/css/paper.css breaks into dashes, so that a run of half-months
// takes one line: dots, boxes and strokes are dashes of a line as thick as they are high. Background patterns are
// what printers leave out first.
type mark struct {
	class string
	shows func(HalfMonth) bool
	at    float64   // from the run's first edge to the line's start
	less  float64   // by which the line is shorter than the run
	y     []float64 // of the lines
}

func graded(l ...Grade) func(HalfMonth) bool {
	return func(h HalfMonth) bool { return slices.Contains(l, h.Grade) }
}

func seen(c Cell) func(HalfMonth) bool { return func(h HalfMonth) bool { return h.Seen == c } }

// Hatching means here what it means on the site, that nobody looked. It is drawn upright and slanted by a transform,
// which moves it by its height.
var marks = []mark{
	{"s-most", graded(GradeMost), 0, 0, []float64{gradeHigh / 2}},
	{"s-one", graded(GradeSome, GradeMany), 5, 9.9, []float64{gradeHigh / 2}},
	{"s-four", graded(GradeMany), 2, 3.9, []float64{1.3, 4.7}},
	{"s-found", seen(CellFound), .6, 1.2, []float64{seenMiddle}},
	{"s-long", seen(CellLooked), .6, 1.2, []float64{seenTop + .25, stripHigh - .45}},
	{"s-side", seen(CellLooked), .6, 1.2, []float64{seenMiddle}},
	{"s-nobody", seen(CellUnlooked), 9.55, 3.5, []float64{seenMiddle}},
}

func halves(g *pen, cells []HalfMonth) {
	for _, m := range marks {
		g.path(m.class, func() {
			for i := 0; i < len(cells); i++ {
				n := 0
				for i+n < len(cells) && m.shows(cells[i+n]) {
					n++
				}
				if n == 0 {
					continue
				}
				for _, y := range m.y {
					g.raw("M").num(float64(i)*stripHalf + m.at).raw(" ").num(y).raw("h").num(float64(n)*stripHalf - m.less)
				}
				i += n
			}
		})
	}
}

// ScaleBar is a bar of a length in millimetres, to hold a ruler against: a tick
// at each millimetre, a longer one at each tenth. Nothing may scale it.
func ScaleBar(mm int, title string) template.HTML {
	g := &pen{make([]byte, 0, 700)}
	w := float64(mm)
	g.raw(`<svg class="scale-bar" role="img" width="`, number(w+2), `mm" height="6mm" viewBox="-1 0 `, number(w+2), ` 6" fill="none" stroke="currentColor" stroke-width=".25"><title>`)
	g.text(title)
	g.raw(`</title><path class="scale-line" stroke-width=".5" d="M0 5.5H`, number(w), `"/><path d="`)
	g.ticks(mm, 1, " 5.5v-", 1.4, 2.4)
	g.raw(`"/></svg>`)
	return template.HTML(g.out)
}

// ticks marks each millimetre, drawn so many times as long; every fifth is longer, every tenth the longest.
func (p *pen) ticks(mm int, times float64, from string, one, five float64) {
	for i := 0; i <= mm; i++ {
		high := one
		switch {
		case i%10 == 0:
			high = 4
		case i%5 == 0:
			high = five
		}
		p.raw("M", number(float64(i)*times), from, number(high))
	}
}

// Ruler is a ruler of so many millimetres, drawn so many times as long, with a number at each ten.
func Ruler(mm int, times float64, title string) template.HTML {
	g := &pen{make([]byte, 0, 900)}
	w := float64(mm) * times
	g.raw(`<svg class="mm-ruler" role="img" width="`, number(w+8), `mm" height="10mm" viewBox="-2 0 `, number(w+8), ` 10" fill="none" stroke="currentColor" stroke-width=".25"><title>`)
	g.text(title)
	g.raw(`</title><path d="M0 1H`, number(w))
	g.ticks(mm, times, " 1v", 1.6, 2.8)
	g.raw(`"/><g fill="currentColor" stroke="none" font-size="3.4" text-anchor="middle">`)
	for i := 0; i <= mm; i += 10 {
		unit := ""
		if i+10 > mm {
			unit = " mm"
		}
		g.raw(`<text x="`, number(float64(i)*times), `" y="9">`, number(float64(i)), unit, `</text>`)
	}
	g.raw(`</g></svg>`)
	return template.HTML(g.out)
}

// Squares draws dark modules on white with a quiet zone of some modules round
// them, as one path. White is drawn too: a code must not take the page's colour.
func Squares(dark [][]bool, quiet int, title string) template.HTML {
	g := &pen{make([]byte, 0, 6000)}
	side := number(float64(len(dark) + 2*quiet))
	g.raw(`<svg class="squares" role="img" viewBox="0 0 `, side, " ", side, `" shape-rendering="crispEdges"><title>`)
	g.text(title)
	g.raw(`</title><path fill="#fff" d="M0 0h`, side, "v", side, "h-", side, `z"/><path fill="#000" d="`)
	for y, row := range dark {
		for x := 0; x < len(row); x++ {
			if !row[x] {
				continue
			}
			n := 1
			for x+n < len(row) && row[x+n] {
				n++
			}
			g.raw("M", number(float64(x+quiet)), " ", number(float64(y+quiet)), "h", number(float64(n)), "v1h-", number(float64(n)), "z")
			x += n
		}
	}
	g.raw(`"/></svg>`)
	return template.HTML(g.out)
}
