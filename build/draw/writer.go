package draw

// The writer: a partial and a figure's parameters become SVG. Everything is in thousandths of the
// body until the end, when it is put on a grid of whole units.

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Figure is what a drawing is made from: a partial's group and its parameters. The figures of
// insects and dressings are filled from an account and a recipe.
type Figure struct {
	Group  string            // the partial's group
	UnitMM float64           // a body's length in mm, which a thousand units of the partial are
	Has    map[string]bool   // what parts of the partial are drawn
	Tint   map[string]string // colours by part, "#rrggbb"; "" is not known
	Scale  map[string]pt     // how parts are stretched; nothing is as drawn

	Tails     int             // how many are drawn
	TailRatio float64         // their length in bodies
	Antenna   float64         // its length in bodies
	Stout     float64         // how thick the trunk is; 0 is 1
	Bent      float64         // how its outline is bent; 0 is 1
	Unsure    map[string]bool // parts drawn by default: dashed
	Bands     string          // "", "last" or "all"
}

// shape is a set of curves that look alike.
type shape struct {
	class, fill, opacity, stroke string
	width                        float64
	dash                         []float64
	curves                       []curve
	mirror                       int  // 1 begins and −1 ends a half that is mirrored
	fine                         bool // in the large picture only
}

type writer struct {
	f      Figure
	groups map[string]*node
	shapes []shape
	fine   int // groups open that are of the large picture only
}

// walk draws a node and what it holds.
func (w *writer) walk(n *node, m affine, role string) {
	for _, s := range n.when {
		if s == "fine" {
			w.fine++
			defer func() { w.fine-- }()
			continue
		}
		if want, no := strings.CutPrefix(s, "!"); w.f.Has[want] == no {
			return
		}
	}
	if n.attr["data-role"] != "" {
		role = n.attr["data-role"]
	}
	m = w.place(n, m)
	switch n.name {
	case "g":
		if n.attr["class"] == "mirror" {
			w.shapes = append(w.shapes, shape{mirror: 1})
			defer func() { w.shapes = append(w.shapes, shape{mirror: -1}) }()
		}
		for _, k := range n.kids {
			w.walk(k, m, role)
		}
	case "use":
		w.use(n, m, role)
	default:
		w.element(n, m, role)
	}
}

// place is the map for what a node holds: its transform, stretched as the figure says.
func (w *writer) place(n *node, m affine) affine {
	m = m.after(n.m)
	if s, ok := w.f.Scale[n.attr["data-scale"]]; ok {
		m = m.after(affine{a: s.x, d: s.y})
	}
	if s, ok := w.f.Scale[n.attr["data-unit"]]; ok {
		m.a, m.b, m.c, m.d = s.x, 0, 0, s.y
	}
	return m
}

func (w *writer) use(n *node, m affine, role string) {
	switch id := strings.TrimPrefix(n.attr["href"], "#"); id {
	case "tails":
		w.tails(n, m)
	case "antenna":
		w.antenna(n, m)
	default:
		w.walk(w.groups[id], m, role)
	}
}

func (w *writer) element(n *node, m affine, role string) {
	c := n.c
	s := shape{class: n.attr["class"], fill: n.attr["fill"], opacity: n.attr["fill-opacity"], stroke: n.attr["stroke"]}
	if v := n.list("stroke-width", 1)[0]; v > 0 {
		s.width = v * m.size()
	}
	for _, d := range n.list("stroke-dasharray", 0) {
		s.dash = append(s.dash, d*m.size())
	}
	switch {
	case n.attr["data-leg"] != "":
		c = []curve{leg(c[0].at, n.list("data-leg", 4))}
	case n.attr["data-taper"] != "":
		v := n.list("data-taper", 2)
		c = []curve{taper(c[0], v[0], v[1])}
	case n.attr["data-trunk"] != "":
		w.trunk(n, m)
		return
	}
	on := make([]curve, len(c))
	for i := range c {
		on[i] = c[i].through(m)
	}
	w.add(s, role, on...)
}

// add adds a shape, its colours looked up.
func (w *writer) add(s shape, role string, curves ...curve) {
	s.fine = w.fine > 0 || s.class == "v"
	of, _, _ := strings.Cut(s.fill, " ")
	if of == "wing" || of == "hind" {
		s = w.wing(s)
	}
	if s.fill != "" {
		if s.fill = tint(w.f.Tint, s.fill); s.fill == "" && !strings.Contains(s.class, " n") {
			s.class, s.opacity = s.class+" n", ""
		}
	}
	if s.stroke != "" {
		if s.stroke = tint(w.f.Tint, s.stroke); s.stroke == "" {
			s.class += " j"
		}
	}
	if w.f.Unsure[role] {
		s.class += " u"
	}
	s.fill, s.stroke, s.curves = short(s.fill), short(s.stroke), curves
	if n := len(w.shapes); n > 0 && w.shapes[n-1].joins(s) {
		w.shapes[n-1].curves = append(w.shapes[n-1].curves, curves...)
		return
	}
	w.shapes = append(w.shapes, s)
}

// wing gives a membrane its look: glass where it is clear, dashed where nobody noted it.
func (w *writer) wing(s shape) shape {
	switch {
	case s.class != "w":
	case w.f.Has["clear"]:
		s.class, s.opacity = "g", ""
	case w.f.Has["tinted"]:
		s.opacity = "0.5"
	case w.f.Unsure["wing"]:
		s.class += " u"
	}
	return s
}

// joins reports whether a line can go on in the path of the one before it. Filled shapes may lie
// over each other and are kept apart.
func (s shape) joins(t shape) bool {
	return s.mirror == 0 && t.mirror == 0 && s.fine == t.fine && s.fill == "" && t.fill == "" &&
		s.class == t.class && s.stroke == t.stroke &&
		s.width == t.width && fmt.Sprint(s.dash) == fmt.Sprint(t.dash) && !strings.Contains(s.class, "n") && s.class != "k"
}

// drawn is a figure on its grid.
type drawn struct {
	shapes        []shape
	low           pt
	k             float64 // grid units to a unit of the partial
	width, height int     // of the viewBox
	perMM         float64 // grid units to a millimetre
	foot          float64 // from the bottom edge up to the row's base line, grid units
}

const gridUnits, gridMargin = 720, 8

// draw puts the figure on its grid.
func (f Figure) draw() (*drawn, error) {
	groups, err := partials()
	if err != nil {
		return nil, err
	}
	top := groups[f.Group]
	if top == nil {
		return nil, fmt.Errorf("there isn't a figure called %q", f.Group)
	}
	w := &writer{f: f, groups: groups}
	w.walk(top, same, "")
	low, high := w.extent()
	size := high.minus(low)
	k := (gridUnits - 2*gridMargin) / max(size.x, size.y)
	d := &drawn{shapes: w.shapes, low: low, k: k, perMM: k * 1000 / f.UnitMM}
	d.width, d.height = int(math.Ceil(size.x*k))+2*gridMargin, int(math.Ceil(size.y*k))+2*gridMargin
	if foot, err := strconv.ParseFloat(top.attr["data-foot"], 64); err == nil {
		d.foot = max(0, (high.y-foot)*k+gridMargin)
	}
	return d, nil
}

// body is the figure's paths and the classes that they have; fine false leaves out what only the large
// picture shows.
func (d *drawn) body(fine bool) (out []byte, classes map[string]bool) {
	grid := func(p pt) spot {
		p = p.minus(d.low).times(d.k)
		return spot{int(math.Round(p.x)) + gridMargin, int(math.Round(p.y)) + gridMargin}
	}
	classes = map[string]bool{}
	halves := 0
	for _, s := range d.shapes {
		switch {
		case s.mirror == 1:
			halves++
			out = fmt.Appendf(out, `<g id="h%d">`, halves)
		case s.mirror == -1:
			out = fmt.Appendf(out, `</g><use href="#h%d" transform="matrix(1 0 0-1 0 %d)"/>`, halves, 2*grid(pt{}).y)
		case fine || !s.fine:
			out = s.write(out, grid, d.k)
			for c := range strings.FieldsSeq(s.class) {
				classes[c] = true
			}
		}
	}
	return out, classes
}

// extent is the box of all shapes, mirrored halves on both sides.
func (w *writer) extent() (low, high pt) {
	low, high = pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
	reach := func(p pt, r float64) {
		low = pt{min(low.x, p.x-r), min(low.y, p.y-r)}
		high = pt{max(high.x, p.x+r), max(high.y, p.y+r)}
	}
	half := 0
	for _, s := range w.shapes {
		half += s.mirror
		for _, c := range s.curves {
			steps := 4 * max(c.pieces(), 6)
			if c.bend == straight {
				steps = c.pieces()
			}
			for i := range steps + 1 {
				p := c.on(float64(i) / float64(steps))
				reach(p, s.width/2)
				if half > 0 {
					reach(pt{p.x, -p.y}, s.width/2)
				}
			}
		}
	}
	return low, high
}

func (s shape) write(out []byte, grid func(pt) spot, k float64) []byte {
	out = append(out, `<path class="`+s.class+`"`...)
	if s.fill != "" {
		out = append(out, ` fill="`+s.fill+`"`...)
	}
	if s.opacity != "" {
		out = append(out, ` fill-opacity="`+strings.TrimPrefix(s.opacity, "0")+`"`...)
	}
	if s.stroke != "" {
		out = append(out, ` stroke="`+s.stroke+`"`...)
	}
	units := func(v float64) int { return max(1, int(math.Round(v*k))) }
	if s.width > 0 {
		out = fmt.Appendf(out, ` stroke-width="%d"`, units(s.width))
	}
	for i, d := range s.dash {
		if i == 0 {
			out = append(out, ` stroke-dasharray="`...)
		}
		out = number(out, units(d), i == 0)
		if i == len(s.dash)-1 {
			out = append(out, '"')
		}
	}
	out = append(out, ` d="`...)
	for _, c := range s.curves {
		out = c.path(out, grid)
	}
	return append(out, `"/>`...)
}
