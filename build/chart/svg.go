package chart

// Draws a chart's SVG from what was read back from its option.
//
// Classes, and what the style sheet (templates/css/chart.css) does with them:
//
//	chart            the <svg>: block, full width up to 40rem, font of the page, fill: ink
//	chart-head       heading, bold; chart-name the name over a row; chart-text labels
//	chart-grid       thin lines of the value axis; chart-axis the zero line
//	chart-own        group of bars resting on own visits: solid fill
//	chart-thin       the same, thin evidence: fill is a pattern of -thin-bg and chart-ink
//	chart-unlooked   bars without an own visit: hatched by a pattern, dashed outline
//	chart-strip      cells under the axis in months nobody looked in, same hatching
//	chart-group-…    bars of one group of flies; chart-…-bg the ground of its pattern
//	chart-dark, chart-light   marks on the groups' colours; chart-ink and chart-paper
//	                 marks and ground of the other patterns: they turn with the theme
//	chart-range      whiskers; chart-find this year's finds; chart-key legend swatches
//	chart-today      the reader's date: has display="none" until the script sets
//	                 transform="translate(x)" with x = data-left + data-month × place,
//	                 place = months before + (day - 0.5) / days of the month, and
//	                 removes display
//
// A bar's rect lies in the group of its series, with a <title> as its child.

import (
	"html/template"
	"slices"
)

// One unit is one CSS pixel where the chart is 320 px wide.
const (
	chartWidth = 320.0
	plotLeft   = 36.0
	plotRight  = 2.0
	monthWidth = (chartWidth - plotLeft - plotRight) / 12
	fontSize   = 10.0
	legendLine = 15.0
)

func (o *option) chart(id, title, desc string, table Table) (Chart, error) {
	text, err := o.done()
	if err != nil {
		return Chart{}, err
	}
	svg := draw(id, title, desc, readBack(o.bar), o.words)
	return Chart{ID: id, SVG: template.HTML(svg), Option: text, Height: o.height, Table: table}, nil
}

// layout says where things stand.
type layout struct {
	single     bool
	plotHeight float64
	tops       []float64 // of each panel's plot; an empty panel is only its name and a word
	legendTop  float64
	height     float64
}

func layOut(p plot) layout {
	l := layout{single: len(p.panels) == 1, plotHeight: 50}
	pad := 24.0 // above a plot, for the heading or name, and finds
	if l.single {
		l.plotHeight, pad = 112, 30
	}
	y := 0.0
	for i := range p.panels {
		l.tops = append(l.tops, y+pad)
		if p.panels[i].empty() {
			y += 24
			continue
		}
		y += pad + l.plotHeight + 9 + fontSize + 8
	}
	l.legendTop = y
	l.height = y + float64(legendLines(p.legend))*legendLine + 2
	return l
}

func (l layout) baseline(i int) float64 { return l.tops[i] + l.plotHeight }

func draw(id, title, desc string, p plot, w *Words) []byte {
	for i := range p.legend {
		switch p.legend[i].kind { // where the series bear the names of waters
		case idOwn:
			p.legend[i].name = w.Own
		case idThin:
			p.legend[i].name = w.Thin
		case idUnlooked:
			p.legend[i].name = w.Unlooked
		}
	}
	l := layOut(p)
	g := &pen{make([]byte, 0, 4096)}
	g.raw(`<svg class="chart" role="img" aria-labelledby="`, id, `-title" aria-describedby="`, id, `-desc" viewBox="0 0 `)
	g.num(chartWidth)
	g.raw(" ")
	g.num(l.height)
	g.raw(`" xmlns="http://www.w3.org/2000/svg" font-size="10" fill="currentColor"><title id="`, id, `-title">`)
	g.text(title)
	g.raw(`</title><desc id="`, id, `-desc">`)
	g.text(desc)
	g.raw("</desc>")
	g.defs(id, p.legend)
	for i := range p.panels {
		g.panel(id, &p.panels[i], l, i)
	}
	g.today(p, l)
	g.legend(id, p.legend, l.legendTop)
	g.raw("</svg>")
	return g.out
}

func (g *pen) panel(id string, q *panel, l layout, i int) {
	top, base := l.tops[i], l.baseline(i)
	perUnit := l.plotHeight / q.top
	if l.single {
		g.label("chart-head", 0, top-18, "", q.name)
	} else {
		g.label("chart-name", 0, top-12, "", q.name)
	}
	if q.empty() {
		return
	}
	g.raw(`<path class="chart-grid" d="`)
	for v := q.step; v <= q.top+1e-9; v += q.step {
		g.hline(plotLeft, base-v*perUnit, chartWidth-plotRight)
	}
	g.raw(`"/>`)
	for v := 0.0; v <= q.top+1e-9; v += q.step {
		g.label("chart-text", plotLeft-4, base-v*perUnit+3.5, "end", number(v)+q.unit)
	}
	for _, s := range q.series {
		g.bars(id, s, base, perUnit)
	}
	if len(q.strip) > 0 {
		g.raw(`<g class="chart-strip" fill="url(#`, id, `-unlooked)">`)
		for _, m := range q.strip {
			g.rect(plotLeft+(m.at-0.5)*monthWidth+1, base+2, monthWidth-2, 6, m.name)
		}
		g.raw("</g>")
	}
	g.raw(`<path class="chart-axis" d="`)
	g.hline(plotLeft, base, chartWidth-plotRight)
	g.raw(`"/>`)
	for m, label := range q.months {
		g.label("chart-text", plotLeft+(float64(m)+0.5)*monthWidth, base+9+fontSize, "middle", label)
	}
	for _, f := range q.finds {
		g.raw(`<path class="chart-find" d="M`)
		g.num(plotLeft + f.at*monthWidth - 4)
		g.raw(" ")
		g.num(top - 9)
		g.raw(`h8l-4 7z"><title>`)
		g.text(f.name)
		g.raw("</title></path>")
	}
}

func (g *pen) bars(id string, s series, base, perUnit float64) {
	g.raw(`<g class="chart-`, s.kind, `"`)
	if patterned(s.kind) {
		g.raw(` fill="url(#`, id, "-", s.kind, `)"`)
	}
	g.raw(">")
	width := monthWidth * (1 - s.gap)
	for _, b := range s.bars {
		x := plotLeft + (float64(b.month)+0.5)*monthWidth - width/2
		g.rect(x, base-(b.base+b.value)*perUnit, width, b.value*perUnit, b.name)
	}
	g.raw("</g>")
	if len(s.spans) == 0 {
		return
	}
	g.raw(`<path class="chart-range" d="`)
	for _, r := range s.spans {
		x := plotLeft + (float64(r.month)+0.5)*monthWidth
		low, high := base-r.low*perUnit, base-r.high*perUnit
		g.hline(x-3, high, x+3)
		g.raw("M")
		g.num(x)
		g.raw(" ")
		g.num(high)
		g.raw("V")
		g.num(low)
		g.hline(x-3, low, x+3)
	}
	g.raw(`"/>`)
}

// today is hidden until the page's script has placed it.
func (g *pen) today(p plot, l layout) {
	if p.today == "" {
		return
	}
	g.raw(`<g class="chart-today" display="none"`)
	g.attr("data-left", plotLeft)
	g.attr("data-month", monthWidth)
	g.raw("><title>")
	g.text(p.today)
	g.raw(`</title><path d="`)
	for i := range p.panels {
		if p.panels[i].empty() {
			continue
		}
		g.raw("M0 ")
		g.num(l.tops[i])
		g.raw("V")
		g.num(l.baseline(i) + 9)
	}
	g.raw(`"/></g>`)
}

func (g *pen) rect(x, y, width, height float64, title string) {
	g.raw("<rect")
	g.attr("x", x)
	g.attr("y", y)
	g.attr("width", width)
	g.attr("height", height)
	g.raw("><title>")
	g.text(title)
	g.raw("</title></rect>")
}

func (g *pen) hline(x, y, to float64) {
	g.raw("M")
	g.num(x)
	g.raw(" ")
	g.num(y)
	g.raw("H")
	g.num(to)
}

func (g *pen) label(class string, x, y float64, anchor, text string) {
	if text == "" {
		return
	}
	g.raw(`<text class="`, class, `"`)
	g.attr("x", x)
	g.attr("y", y)
	if anchor != "" {
		g.raw(` text-anchor="`, anchor, `"`)
	}
	g.raw(">")
	g.text(fit(text, chartWidth-x))
	g.raw("</text>")
}

// fit cuts a text that would run out of the picture; it stands whole in the table.
func fit(s string, width float64) string {
	if len(s) < 40 || textWidth(s, fontSize+1) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 1 && textWidth(string(r), fontSize+1) > width-fontSize {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// flow places the legend's entries in lines; nil where there is nothing to explain.
func flow(entries []entry) (places [][2]float64, lines int) {
	x, line := 0.0, 0
	for _, e := range entries {
		w := 22 + textWidth(e.name, fontSize)
		if x > 0 && x+w > chartWidth {
			x, line = 0, line+1
		}
		places = append(places, [2]float64{x, float64(line) * legendLine})
		x += w + 12
	}
	if len(entries) > 0 {
		line++
	}
	return places, line
}

func legendLines(entries []entry) int { _, n := flow(entries); return n }

func (g *pen) legend(id string, entries []entry, top float64) {
	places, _ := flow(entries)
	for i, e := range entries {
		x, y := places[i][0], top+places[i][1]
		if e.kind == idFinds {
			g.raw(`<path class="chart-find" d="M`)
			g.num(x + 4)
			g.raw(" ")
			g.num(y + 4)
			g.raw(`h8l-4 7z"/>`)
		} else {
			g.raw(`<g class="chart-key chart-`, e.kind, `"`)
			if patterned(e.kind) {
				g.raw(` fill="url(#`, id, "-", e.kind, `)"`)
			}
			g.raw("><rect")
			g.attr("x", x+0.5)
			g.attr("y", y+2)
			g.raw(` width="17" height="10"/></g>`)
		}
		g.label("chart-text", x+22, y+10.5, "", e.name)
	}
}

func patterned(kind string) bool { return patterns[kind] != "" }

func (g *pen) defs(id string, entries []entry) {
	kinds := make([]string, 0, len(entries))
	for _, e := range entries {
		if patterned(e.kind) && !slices.Contains(kinds, e.kind) {
			kinds = append(kinds, e.kind)
		}
	}
	if len(kinds) == 0 {
		return
	}
	g.raw("<defs>")
	for _, kind := range kinds {
		g.raw(`<pattern id="`, id, "-", kind, `" patternUnits="userSpaceOnUse" `, patterns[kind], "</pattern>")
	}
	g.raw("</defs>")
}
