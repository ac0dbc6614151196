package chart

// A fly's year on one water as SVG: above the line twelve bars, each with its
// range; below it the band of 24 half-months, what visits found. Both stand on
// the same months, so that a bar is read over its evidence.
//
// Classes, which templates/css/chart.css fills: own, thin and none for bars by what
// they are based on; wh the ranges, outlined by a halo; f, l and u the band; ax the lines
// at 50 and 100 %, base the zero line; find this year's finds. The reader's date is a line that the style
// sheet draws over all years of a page; on a lane it is day, which the page's script puts in its place.
// The patterns and the lines are Defs, once on a page.

import "html/template"

// One unit is about one CSS pixel on a narrow phone.
const (
	monthWide = 26.0
	halfWide  = monthWide / 2
	barWide   = 14.0
	yearWide  = 12 * monthWide
	baseline  = 34.0
	fullBar   = 32.0 // 100 %
	bandTop   = 38.0
	bandHigh  = 8.0
	yearHigh  = bandTop + bandHigh + 1
)

// Defs are the patterns that charts are filled with, and the lines of a year, once on each page that has one.
const Defs template.HTML = `<svg class="defs" width="0" height="0" aria-hidden="true"><defs>` +
	`<pattern id="hat" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">` +
	`<path class="hl" d="M0 0V5"/></pattern><pattern id="thn" width="3.6" height="3.6" patternUnits="userSpaceOnUse">` +
	`<path class="tl" d="M0 1H3.6"/></pattern><g id="ax"><path class="ax" d="M0 2H312M0 18H312"/><path class="base" d="M0 34H312"/></g></defs></svg>`

// SVG draws the year. It says nothing to those who don't see it: the figures and the
// runs of the band stand beside it as text.
func (y Year) SVG() template.HTML {
	p := &pen{make([]byte, 0, 2048)}
	p.raw(`<svg class="yr" viewBox="0 0 312 47" preserveAspectRatio="none" aria-hidden="true"><use href="#ax"/>`)
	p.bars(y.Months)
	p.ranges(y.Months)
	p.finds(y.Finds)
	p.band(y.Cells)
	p.raw(`</svg>`)
	return template.HTML(p.out)
}

// barClass is a bar's look by what it is based on.
var barClass = [...]string{Own: "own", Thin: "thin", Unlooked: "none"}

func (p *pen) bars(months [12]Month) {
	for _, kind := range []State{Own, Thin, Unlooked} {
		p.path(barClass[kind], func() {
			for m, month := range months {
				high := fullBar * min(max(month.Chance, 0), 1)
				if month.State != kind || high < 0.05 {
					continue
				}
				x := monthWide*float64(m) + (monthWide-barWide)/2
				p.raw("M").num(x).raw(" ").num(baseline).raw("V").num(baseline - high).raw("h").num(barWide).raw("V").num(baseline)
				if kind != Unlooked { // the outline of an empty bar stands open on the line
					p.raw("z")
				}
			}
		})
	}
}

// ranges draws each range as the outline of a line with a bar on top, so that its stroke can be a halo of the paper.
func (p *pen) ranges(months [12]Month) {
	p.path("wh", func() {
		for m, month := range months {
			low, high := baseline-fullBar*month.Low, baseline-fullBar*month.High
			if month.State.Numbered() && low-high >= 0.3 {
				p.raw("M").num(monthWide*(float64(m)+0.5) - 0.5).raw(" ").num(low).raw("V").num(high).raw("h-2v-1h5v1h-2V").num(low).raw("z")
			}
		}
	})
}

func (p *pen) finds(finds []Find) {
	p.path("find", func() {
		for _, f := range finds {
			if at, ok := dayPlace(f.Month, f.Day); ok {
				p.raw("M").num(monthWide*at - 2).raw(" 34h4l-2-3.5z")
			}
		}
	})
}

// band draws 24 half-months; neighbours in one state join.
func (p *pen) band(cells [24]Cell) {
	var d [3]pen
	middle := bandTop + bandHigh/2
	for i := 0; i < len(cells); {
		to := i
		for to < len(cells) && cells[to] == cells[i] {
			to++
		}
		from, end := halfWide*float64(i), halfWide*float64(to)
		switch k := &d[cells[i]]; cells[i] {
		case CellLooked:
			k.raw("M").num(from).raw(" ").num(middle).raw("H").num(end)
			for c := i; c < to; c++ { // a tick for each half-month that somebody looked in
				k.raw("M").num(halfWide * (float64(c) + 0.5)).raw(" ").num(middle - 2).raw("v4")
			}
		default:
			k.raw("M").num(from).raw(" ").num(bandTop).raw("h").num(end - from).raw("v").num(bandHigh).raw("h").num(from - end).raw("z")
		}
		i = to
	}
	for _, k := range []Cell{CellFound, CellLooked, CellUnlooked} {
		p.path(cellClass[k], func() { p.raw(string(d[k].out)) })
	}
}

var cellClass = [...]string{CellUnlooked: "u", CellLooked: "l", CellFound: "f"}

// Lane draws the year flat, as one of several waters of a fly: bars over the band, at a third of the height.
func (y Year) Lane() template.HTML {
	p := &pen{make([]byte, 0, 900)}
	p.raw(`<svg class="lane" viewBox="0 1 312 46" preserveAspectRatio="none" aria-hidden="true"><path class="base" d="M0 34H312"/>`)
	p.bars(y.Months)
	p.band(y.Cells)
	p.raw(`<path class="day" d="M0 0V47" display="none"/></svg>`)
	return template.HTML(p.out)
}
