package draw

// Curves through given points, and how they are written.

import (
	"math"
	"strconv"
)

// pt is a point, x towards the tail, y down.
type pt struct{ x, y float64 }

func (p pt) plus(q pt) pt       { return pt{p.x + q.x, p.y + q.y} }
func (p pt) minus(q pt) pt      { return pt{p.x - q.x, p.y - q.y} }
func (p pt) times(k float64) pt { return pt{p.x * k, p.y * k} }
func (p pt) length() float64    { return math.Hypot(p.x, p.y) }
func (p pt) across() pt         { return pt{p.y, -p.x} } // to the left of a walker along p, as y runs down
func mix(p, q pt, t float64) pt { return p.times(1 - t).plus(q.times(t)) }
func (p pt) unit() (u pt)       { return p.times(1 / max(p.length(), 1e-9)) }
func turned(deg, long float64) pt {
	s, c := math.Sincos(deg * math.Pi / 180)
	return pt{c * long, -s * long}
}

// affine is a map of the plane: x' = a x + c y + e, y' = b x + d y + f, as SVG writes it.
type affine struct{ a, b, c, d, e, f float64 }

var same = affine{a: 1, d: 1}

// after is m after n: n is applied first.
func (m affine) after(n affine) affine {
	u, v, o := m.linear(pt{n.a, n.b}), m.linear(pt{n.c, n.d}), m.of(pt{n.e, n.f})
	return affine{u.x, u.y, v.x, v.y, o.x, o.y}
}

func (m affine) linear(p pt) pt { return pt{m.a*p.x + m.c*p.y, m.b*p.x + m.d*p.y} }
func (m affine) of(p pt) pt     { return m.linear(p).plus(pt{m.e, m.f}) }

// size is by how much a length grows, whatever its direction: the root of the area's growth.
func (m affine) size() float64 { return math.Sqrt(math.Abs(m.a*m.d - m.b*m.c)) }

// bend is how a curve runs through its points.
type bend uint8

const (
	straight bend = iota
	smooth        // uniform Catmull–Rom; three points of an open curve are one quadratic arc
	oval          // points are the centre and the ends of the two half axes
)

// curve is one stroke of the pen.
type curve struct {
	bend   bend
	closed bool
	at     []pt
}

// arc reports whether the curve is one quadratic arc through three points.
func (c curve) arc() bool { return c.bend == smooth && !c.closed && len(c.at) == 3 }

// handle is the control point of that arc.
func (c curve) handle() pt { return c.at[1].times(2).minus(mix(c.at[0], c.at[2], 0.5)) }

func (c curve) pieces() int {
	if c.closed {
		return len(c.at)
	}
	return len(c.at) - 1
}

func (c curve) point(i int) pt {
	if n := len(c.at); c.closed {
		return c.at[((i%n)+n)%n]
	}
	return c.at[min(max(i, 0), len(c.at)-1)]
}

// piece is the i-th cubic. The handles on both sides of a point mirror each other, so that SVG's
// short form says all.
func (c curve) piece(i int) (from, h1, h2, to pt) {
	a, b, d, e := c.point(i-1), c.point(i), c.point(i+1), c.point(i+2)
	return b, b.plus(d.minus(a).times(1.0 / 6)), d.minus(e.minus(b).times(1.0 / 6)), d
}

// on is the point at t from 0 to 1; every piece has an equal share of t.
func (c curve) on(t float64) pt {
	switch {
	case c.bend == oval:
		s, k := math.Sincos(2 * math.Pi * t)
		return c.at[0].plus(c.at[1].minus(c.at[0]).times(k)).plus(c.at[2].minus(c.at[0]).times(s))
	case c.arc():
		return mix(mix(c.at[0], c.handle(), t), mix(c.handle(), c.at[2], t), t)
	}
	n := c.pieces()
	i := min(int(t*float64(n)), n-1)
	t = t*float64(n) - float64(i)
	if c.bend == straight {
		return mix(c.point(i), c.point(i+1), t)
	}
	p, q, r, s := c.piece(i)
	q1, r1, s1 := mix(p, q, t), mix(q, r, t), mix(r, s, t)
	return mix(mix(q1, r1, t), mix(r1, s1, t), t)
}

// side is the unit vector across the curve at t.
func (c curve) side(t float64) pt {
	return c.on(min(t+0.01, 1)).minus(c.on(max(t-0.01, 0))).unit().across()
}

func (c curve) through(m affine) curve {
	out := curve{c.bend, c.closed, make([]pt, len(c.at))}
	for i, p := range c.at {
		out.at[i] = m.of(p)
	}
	return out
}

// spot is a point of the grid that paths are written on.
type spot struct{ x, y int }

func (p spot) minus(q spot) spot { return spot{p.x - q.x, p.y - q.y} }

// path appends the curve as path data; grid places a point.
func (c curve) path(out []byte, grid func(pt) spot) []byte {
	start := grid(c.at[0])
	if c.bend == oval {
		return c.ovalPath(out, grid, start)
	}
	out = command(out, 'M', start)
	at := start
	switch {
	case c.bend == straight:
		var last byte
		for i := range c.pieces() {
			to := grid(c.point(i + 1))
			if c.closed && i == len(c.at)-1 || to == at {
				continue
			}
			out, last = goOn(out, 'l', last, to.minus(at)), 'l'
			at = to
		}
	case c.arc():
		out = command(out, 'q', grid(c.handle()).minus(at), grid(c.at[2]).minus(at))
	default:
		var last byte
		for i := range c.pieces() {
			_, h1, h2, to := c.piece(i)
			end := grid(to)
			if i == 0 {
				out = command(out, 'c', grid(h1).minus(at), grid(h2).minus(at), end.minus(at))
			} else {
				out, last = goOn(out, 's', last, grid(h2).minus(at), end.minus(at)), 's'
			}
			at = end
		}
	}
	if c.closed {
		out = append(out, 'z')
	}
	return out
}

// ovalPath writes the oval as two half turns.
func (c curve) ovalPath(out []byte, grid func(pt) spot, centre spot) []byte {
	half := grid(c.at[1]).minus(centre)
	long := max(1, int(math.Round(math.Hypot(float64(half.x), float64(half.y)))))
	side := grid(c.at[2]).minus(centre)
	wide := max(1, int(math.Round(math.Hypot(float64(side.x), float64(side.y)))))
	deg := int(math.Round(math.Atan2(float64(half.y), float64(half.x)) * 180 / math.Pi))
	out = command(out, 'M', centre.minus(half))
	for _, k := range []int{2, -2} {
		out = append(out, 'a')
		for i, v := range []int{long, wide, deg, 1, 0, k * half.x, k * half.y} {
			out = number(out, v, i == 0)
		}
	}
	return out
}

// command starts a command; goOn leaves the letter out where it is the last one's.
func command(out []byte, letter byte, to ...spot) []byte { return goOn(out, letter, 0, to...) }

func goOn(out []byte, letter, last byte, to ...spot) []byte {
	if letter != last {
		out = append(out, letter)
	}
	for i, p := range to {
		out = number(out, p.x, i == 0 && letter != last)
		out = number(out, p.y, false)
	}
	return out
}

func number(out []byte, v int, first bool) []byte {
	if !first && v >= 0 {
		out = append(out, ' ')
	}
	return strconv.AppendInt(out, int64(v), 10)
}
