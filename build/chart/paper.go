package chart

// Signs for paper: the year of a fly as a strip of half-months, a bar to check
// the printer by, and a grid of squares. All is ink on white: shapes and
// hatching, never a shade that a copier could lose.

import "html/template"

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
	case round9(chance) >= MostFrom:
		return GradeMost
	case round9(chance) >= ManyFrom:
		return GradeMany
	}
	return GradeSome
}

func round9(v float64) float64 { return float64(int64(v*1e9+0.5)) / 1e9 }

// HalfMonth is one cell of a strip: how much is to be expected, and what was
// looked for there.
type HalfMonth struct {
	Grade Grade
	Seen  Cell
}

// A half-month on a strip is 10 units wide; the grade stands above, what was
// looked for below.
const (
	stripHalf = 10.0
	gradeHigh = 6.0
	seenTop   = 6.8
	stripHigh = 9.0
)

// YearStrip draws a fly's 24 half-months side by side, 12 of 24 units to a
// month. It is hidden from those who don't see it: the words go beside it.
func YearStrip(year [24]HalfMonth) template.HTML {
	g := &pen{make([]byte, 0, 1800)}
	g.raw(`<svg class="strip" viewBox="0 0 240 `, number(stripHigh), `" aria-hidden="true" focusable="false" fill="none" stroke="currentColor">`)
	g.raw(`<path class="strip-lines" stroke-width=".35" d="M0 0H240V`, number(gradeHigh), `H0Z`)
	for m := 1.0; m < 12; m++ {
		g.raw("M", number(m*2*stripHalf), " 0V", number(gradeHigh))
	}
	g.raw(`"/>`)
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
	g.raw(`<svg class="strip-sign" viewBox="-.2 -.2 10.4 `, number(stripHigh+.4), `" aria-hidden="true" focusable="false" fill="none" stroke="currentColor">`)
	if h.Seen == cellBlank {
		g.raw(`<path stroke-width=".35" d="M0 0H10V`, number(gradeHigh), `H0Z"/>`)
	}
	halves(g, []HalfMonth{h})
	g.raw("</svg>")
	return template.HTML(g.out)
}

// halves draws all cells of a kind in one path. Hatching means here what it
// means on the site, that nobody looked; it is drawn as strokes, since
// background patterns are what printers leave out first.
func halves(g *pen, cells []HalfMonth) {
	path := func(open string, draw func(HalfMonth, string) string) {
		d := ""
		for i, h := range cells {
			if s := draw(h, number(float64(i)*stripHalf)); s != "" {
				d += s
			}
		}
		if d != "" {
			g.raw("<path ", open, ` d="`, d, `"/>`)
		}
	}
	path(`fill="currentColor" stroke="none"`, func(h HalfMonth, x string) string {
		if h.Grade == GradeMost {
			return "M" + x + " 0h10v6h-10z"
		}
		return ""
	})
	path(`stroke-width="1.9" stroke-linecap="round"`, func(h HalfMonth, x string) string {
		switch h.Grade { // one dot, or five
		case GradeSome:
			return "M" + x + " 3m5 0h0"
		case GradeMany:
			return "M" + x + " 3m5 0h0m-3-1.7h0m6 0h0m0 3.4h0m-6 0h0"
		}
		return ""
	})
	path(`fill="currentColor" stroke="none"`, func(h HalfMonth, x string) string {
		if h.Seen == CellFound {
			return "M" + x + " " + number(seenTop) + "m.6 0h8.8v2h-8.8z"
		}
		return ""
	})
	path(`stroke-width=".5"`, func(h HalfMonth, x string) string {
		if h.Seen == CellLooked {
			return "M" + x + " " + number(seenTop) + "m.85 .25h8.3v1.5h-8.3z"
		}
		return ""
	})
	path(`stroke-width=".35"`, func(h HalfMonth, x string) string {
		if h.Seen == CellUnlooked {
			return "M" + x + " " + number(seenTop) + "m1 2l2-2m0 2l2-2m0 2l2-2m0 2l2-2"
		}
		return ""
	})
}

// ScaleBar is a bar of a length in millimetres, to hold a ruler against: a tick
// at each millimetre, a longer one at each tenth. Nothing may scale it.
func ScaleBar(mm int, title string) template.HTML {
	g := &pen{make([]byte, 0, 700)}
	w := float64(mm)
	g.raw(`<svg class="scale-bar" role="img" width="`, number(w+2), `mm" height="6mm" viewBox="-1 0 `, number(w+2), ` 6" fill="none" stroke="currentColor" stroke-width=".25"><title>`)
	g.text(title)
	g.raw(`</title><path class="scale-line" stroke-width=".5" d="M0 5.5H`, number(w), `"/><path d="`)
	for i := 0; i <= mm; i++ {
		high := 1.4
		switch {
		case i%10 == 0:
			high = 4
		case i%5 == 0:
			high = 2.4
		}
		g.raw("M", number(float64(i)), " 5.5v-", number(high))
	}
	g.raw(`"/></svg>`)
	return template.HTML(g.out)
}

// Ruler is a ruler of so many millimetres, drawn so many times as long, with a number at each ten.
func Ruler(mm int, times float64, title string) template.HTML {
	g := &pen{make([]byte, 0, 900)}
	w := float64(mm) * times
	g.raw(`<svg class="mm-ruler" role="img" width="`, number(w+8), `mm" height="10mm" viewBox="-2 0 `, number(w+8), ` 10" fill="none" stroke="currentColor" stroke-width=".25"><title>`)
	g.text(title)
	g.raw(`</title><path d="M0 1H`, number(w))
	for i := 0; i <= mm; i++ {
		high := 1.6
		switch {
		case i%10 == 0:
			high = 4
		case i%5 == 0:
			high = 2.8
		}
		g.raw("M", number(float64(i)*times), " 1v", number(high))
	}
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
