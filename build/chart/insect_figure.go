package chart

// The sheet a figure is drawn on: shapes in millimetres, their extent, the scale
// bar, and the SVG at the end.
//
// Classes for the style sheet: insect (the svg; insect-life at life size, which
// must not be shrunk), insect-blank (ground where a colour is not known; fill of
// the page), insect-cloud (a clouded wing of unknown colour), insect-scale (bar
// and its label). Lines are currentColor; known colours are fill attributes.

import (
	"html/template"
	"math"
	"slices"
	"strconv"
)

// unitsPerMM is how many units of the viewBox one millimetre on the page has. Shapes are drawn
// in whole units, a twentieth of a millimetre: finer than a screen's dot and a printer's line.
const unitsPerMM = 20.0

type shape struct {
	curve   curve
	fill    string  // "#rrggbb", blank, cloud or "" for none
	opacity float64 // of the fill; 0 is 1
	width   float64 // of the line, mm on the page; 0 none
	stroke  string  // "" ink
	dashed  bool
	faint   bool // half as strong: far side, veins
}

const (
	blank = "blank"
	cloud = "cloud"
	ink   = "ink"
)

type figure struct {
	scale    float64
	detail   bool // veins, segments, joints
	shapes   []shape
	unknown  []Part
	min, max pt
	begun    bool
}

// line is the width of an outline in mm on the page.
func (f *figure) line() float64 {
	if f.scale < 2 {
		return 0.13
	}
	return 0.25
}

func (f *figure) add(s shape) {
	f.shapes = append(f.shapes, s)
	f.reach(s.curve.start)
	for i := range s.curve.cubics {
		n := len(s.curve.cubics)
		for j := 1; j <= 4; j++ {
			f.reach(s.curve.at((float64(i) + float64(j)/4) / float64(n)))
		}
	}
}

func (f *figure) reach(p pt) {
	if !f.begun {
		f.min, f.max, f.begun = p, p, true
		return
	}
	f.min = pt{math.Min(f.min.x, p.x), math.Min(f.min.y, p.y)}
	f.max = pt{math.Max(f.max.x, p.x), math.Max(f.max.y, p.y)}
}

// solid is a part of the body with an outline; colour "" leaves it blank.
func (f *figure) solid(c curve, colour string) {
	if colour == "" {
		colour = blank
	}
	f.add(shape{curve: c, fill: colour, width: f.line()})
}

// stroke is a plain line in ink, width in outlines.
func (f *figure) stroke(c curve, width float64) {
	f.add(shape{curve: c, width: f.line() * width})
}

// mark is a fine line within a part of the given colour, only where there is room.
func (f *figure) mark(c curve, on string, width float64) {
	if f.detail {
		f.add(shape{curve: c, width: f.line() * width, stroke: shade(on), faint: on == ""})
	}
}

// partOrder is head to tail.
var partOrder = []Part{PartEyes, PartBody, PartLegs, PartWings, PartWingLength, PartForeWing, PartWing, PartHindWing, PartTailCount, PartTailLength, PartTail}

func (f *figure) lacks(p Part) {
	if slices.Contains(f.unknown, p) {
		return
	}
	f.unknown = append(f.unknown, p)
	slices.SortFunc(f.unknown, func(a, b Part) int { return slices.Index(partOrder, a) - slices.Index(partOrder, b) })
}

// leg draws thigh, shin and foot through four points; w is the thigh's width in mm.
func (f *figure) leg(colour string, w float64, coxa, knee, ankle, foot pt) {
	if !f.detail {
		f.stroke(line(coxa, knee, ankle, foot), 1)
		return
	}
	bend := func(a, b pt, by float64) curve {
		d := b.minus(a)
		return through(false, a, mix(a, b, 0.5).plus(pt{d.y, -d.x}.times(by)), b)
	}
	f.stroke(bend(ankle, foot, 0.06), 1.1)
	f.solid(tapered(bend(knee, ankle, -0.03), w*0.55, w*0.38), colour)
	f.solid(tapered(bend(coxa, knee, 0.05), w, w*0.62), colour)
}

// magnification is the largest tidy one that keeps the figure within a card.
func (f *figure) magnification() float64 {
	const wide, high = 66.0, 46.0
	size := f.max.minus(f.min)
	best := 0.25
	for _, k := range []float64{0.5, 0.75, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20} {
		if size.x*k <= wide && size.y*k <= high {
			best = k
		}
	}
	return best
}

// barMM is the length of the scale bar: a tidy one, 8 mm or more on the page.
func barMM(scale float64) float64 {
	for _, mm := range []float64{0.5, 1, 2, 5, 10, 20} {
		if mm*scale >= 8 {
			return mm
		}
	}
	return 50
}

func (f *figure) finish(id, title, desc string, view View, in Insect, words *InsectWords) Drawing {
	const margin, fontMM = 1.0, 2.6
	bar := barMM(f.scale)
	label := number(bar) + "\u00a0" + words.MM + ", " + words.LifeSize
	if f.scale != 1 {
		label = number(bar) + "\u00a0" + words.MM + ", " + words.Times + number(f.scale)
	}
	class := "insect"
	if view != Enlarged {
		class = "insect insect-life"
	}
	size := f.max.minus(f.min).times(f.scale)
	width := max(max(size.x, float64(bar*f.scale)+1.5+textWidth(label, fontMM))+2*margin, in.Wide)
	barTop := size.y + 2*margin + 1.2
	height := barTop + 2.8
	if view == Outline {
		width, height = size.x+2*margin, size.y+2*margin
	}
	width, height = math.Ceil(width*10)/10, math.Ceil(height*10)/10

	g := &pen{make([]byte, 0, 6000)}
	g.raw(`<svg class="`, class, `" role="img" aria-labelledby="`, id, `-title" aria-describedby="`, id, `-desc" width="`)
	g.raw(number(width), `mm" height="`, number(height), `mm" viewBox="0 0 `, number(math.Round(width*unitsPerMM)), " ", number(math.Round(height*unitsPerMM)))
	g.raw(`" xmlns="http://www.w3.org/2000/svg" fill="none" stroke="currentColor" stroke-linejoin="round" stroke-linecap="round"><title id="`, id, `-title">`)
	g.text(title)
	g.raw(`</title><desc id="`, id, `-desc">`)
	g.text(desc)
	g.raw("</desc>")

	shift := pt{margin - float64(f.min.x*f.scale), margin - float64(f.min.y*f.scale)}
	if view == Outline {
		for i := range f.shapes {
			f.shapes[i].curve = f.shapes[i].curve.fewer(fewerWithin / f.scale)
		}
	}
	for i, s := range f.shapes {
		f.path(g, s, shift, i > 0 && s.joins(f.shapes[i-1]), i+1 < len(f.shapes) && f.shapes[i+1].joins(s))
	}

	if view == Outline {
		g.raw("</svg>")
		return f.drawing(g, width, height, in.length())
	}
	g.raw(`<g class="insect-scale" stroke-width="`, number(0.2*unitsPerMM), `"><path class="insect-bar" d="`)
	x, y := margin*unitsPerMM, barTop*unitsPerMM
	long := bar * f.scale * unitsPerMM
	tick := func(at, up float64) {
		g.raw("M")
		g.num(x + at)
		g.raw(" ")
		g.num(y - up)
		g.raw("V")
		g.num(y)
	}
	tick(0, 1.2*unitsPerMM)
	g.raw("H")
	g.num(x + long)
	g.raw("v", number(-1.2*unitsPerMM))
	if f.scale == 1 { // a ruler: every millimetre
		for mm := 1.0; mm < bar; mm++ {
			tick(mm*unitsPerMM, 0.6*unitsPerMM)
		}
	}
	g.raw(`"/><text stroke="none" fill="currentColor" font-size="`, number(fontMM*unitsPerMM), `"`)
	g.attr("x", x+long+1.2*unitsPerMM)
	g.attr("y", y)
	g.raw(">")
	g.text(label)
	g.raw("</text></g></svg>")
	return f.drawing(g, width, height, in.length())
}

func (f *figure) drawing(g *pen, width, height, length float64) Drawing {
	return Drawing{SVG: template.HTML(g.out), Unknown: f.unknown, Magnification: f.scale, WidthMM: width, HeightMM: height, LengthMM: length}
}

// joins reports whether a line can go on in the path of the one before it.
func (s shape) joins(before shape) bool {
	return s.fill == "" && before.fill == "" && s.width == before.width && s.stroke == before.stroke &&
		s.dashed == before.dashed && s.faint == before.faint
}

func (f *figure) path(g *pen, s shape, shift pt, joins, joined bool) {
	if !joins {
		f.openPath(g, s)
	}
	grid := func(p pt) spot {
		at := p.times(f.scale).plus(shift).times(unitsPerMM)
		return spot{int(math.Round(at.x)), int(math.Round(at.y))}
	}
	n := nib{pen: g}
	n.move(grid(s.curve.start))
	from := s.curve.start
	for _, c := range s.curve.cubics {
		if c == straight(from, c[2]) {
			n.line(grid(c[2]))
		} else {
			n.cubic(grid(c[0]), grid(c[1]), grid(c[2]))
		}
		from = c[2]
	}
	if s.curve.closed {
		g.raw("z")
	}
	if !joined {
		g.raw(`"/>`)
	}
}

func (f *figure) openPath(g *pen, s shape) {
	g.raw("<path")
	switch s.fill {
	case "":
	case blank, cloud:
		g.raw(` class="insect-`, s.fill, `"`)
	case ink:
		g.raw(` fill="currentColor"`)
	default:
		g.raw(` fill="`, s.fill, `"`)
	}
	if s.opacity > 0 {
		g.attr("fill-opacity", s.opacity)
	}
	if s.width > 0 {
		g.raw(` stroke-width="`, strconv.FormatFloat(math.Round(s.width*unitsPerMM*100)/100, 'f', -1, 64), `"`)
		if s.stroke != "" {
			g.raw(` stroke="`, s.stroke, `"`)
		}
		if s.faint {
			g.raw(` stroke-opacity=".55"`)
		}
		if s.dashed {
			g.raw(` stroke-dasharray="`, number(math.Round(s.width*6*unitsPerMM)), " ", number(math.Round(s.width*4*unitsPerMM)), `"`)
		}
	} else {
		g.raw(` stroke="none"`)
	}
	g.raw(` d="`)
}
