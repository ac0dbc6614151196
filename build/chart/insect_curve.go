package chart

// Curves for the figures: smooth splines through points given in a frame of
// their own (a body's, a wing's), in millimetres, y downwards.

import "math"

type pt struct{ x, y float64 }

func (a pt) plus(b pt) pt       { return pt{a.x + b.x, a.y + b.y} }
func (a pt) minus(b pt) pt      { return pt{a.x - b.x, a.y - b.y} }
func (a pt) times(k float64) pt { return pt{a.x * k, a.y * k} }
func (a pt) length() float64    { return math.Hypot(a.x, a.y) }
func mix(a, b pt, t float64) pt { return a.times(1 - t).plus(b.times(t)) }
func polar(r, degrees float64) pt {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return pt{r * c, -r * s}
}

// frame maps (a, b) to origin + a·u + b·v.
type frame struct{ origin, u, v pt }

// bodyFrame lies along x with its unit the given length.
func bodyFrame(length float64) frame { return frame{pt{}, pt{length, 0}, pt{0, length}} }

// wingFrame starts at a point and runs at an angle (degrees, up is positive);
// b grows towards the insect's tail, or downwards for a wing laid back.
func wingFrame(at pt, length, degrees float64) frame {
	u := polar(length, degrees)
	return frame{at, u, pt{-u.y, u.x}}
}

func (f frame) at(a, b float64) pt { return f.origin.plus(f.u.times(a)).plus(f.v.times(b)) }

// all turns a flat list of pairs into points.
func (f frame) all(pairs ...float64) []pt {
	out := make([]pt, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, f.at(pairs[i], pairs[i+1]))
	}
	return out
}

// curve is a run of cubic Béziers: a start, then three points each.
type curve struct {
	start  pt
	cubics [][3]pt
	closed bool
}

// through lays a smooth curve through points (Catmull and Rom's spline).
func through(closed bool, p ...pt) curve {
	n := len(p)
	c := curve{start: p[0], closed: closed}
	get := func(i int) pt {
		if closed {
			return p[(i+n)%n]
		}
		return p[min(max(i, 0), n-1)]
	}
	last := n - 1
	if closed {
		last = n
	}
	for i := range last {
		p0, p1, p2, p3 := get(i-1), get(i), get(i+1), get(i+2)
		c.cubics = append(c.cubics, [3]pt{p1.plus(p2.minus(p0).times(1.0 / 6)), p2.minus(p3.minus(p1).times(1.0 / 6)), p2})
	}
	return c
}

// joined closes several open curves, end to start, with corners between them.
func joined(parts ...curve) curve {
	out := curve{start: parts[0].start, closed: true}
	for i, p := range parts {
		if i > 0 {
			out.cubics = append(out.cubics, straight(out.end(), p.start))
		}
		out.cubics = append(out.cubics, p.cubics...)
	}
	return out
}

func straight(a, b pt) [3]pt { return [3]pt{mix(a, b, 1.0/3), mix(a, b, 2.0/3), b} }

func line(p ...pt) curve {
	c := curve{start: p[0]}
	for i := 1; i < len(p); i++ {
		c.cubics = append(c.cubics, straight(p[i-1], p[i]))
	}
	return c
}

func (c curve) end() pt {
	if len(c.cubics) == 0 {
		return c.start
	}
	return c.cubics[len(c.cubics)-1][2]
}

// at is the point at t, 0 … 1, each cubic having an equal share.
func (c curve) at(t float64) pt {
	n := float64(len(c.cubics))
	i := min(int(t*n), len(c.cubics)-1)
	t = float64(t*n) - float64(i)
	p0 := c.start
	if i > 0 {
		p0 = c.cubics[i-1][2]
	}
	q := c.cubics[i]
	a, b, d := mix(p0, q[0], t), mix(q[0], q[1], t), mix(q[1], q[2], t)
	return mix(mix(a, b, t), mix(b, d, t), t)
}

// normal is the unit normal at t, to the left of the way on.
func (c curve) normal(t float64) pt {
	d := c.at(math.Min(t+0.01, 1)).minus(c.at(math.Max(t-0.01, 0)))
	if l := d.length(); l > 0 {
		return pt{d.y / l, -d.x / l}
	}
	return pt{}
}

// long is a curve's length along its way.
func (c curve) long() float64 {
	sum, last := 0.0, c.start
	for i := 1; i <= 64; i++ {
		p := c.at(float64(i) / 64)
		sum += p.minus(last).length()
		last = p
	}
	return sum
}

// tapered is the outline of a thread along c, w0 wide at its root and w1 at its end.
func tapered(c curve, w0, w1 float64) curve {
	const n = 4
	var left, right []pt
	for i := 0; i <= n; i++ {
		t := float64(i) / n
		w := (w0 + float64((w1-w0)*t)) / 2
		p, d := c.at(t), c.normal(t)
		left = append(left, p.plus(d.times(w)))
		right = append(right, p.minus(d.times(w)))
	}
	for i, j := 0, n; i < j; i, j = i+1, j-1 {
		right[i], right[j] = right[j], right[i]
	}
	return joined(through(false, left...), through(false, right...))
}

// oval is an ellipse at c with half axes a and b, turned by degrees: four curves whose handles are
// 0.5523 of the half axes long, off a circle by 0.03 % at most (Goldapp 1991, Computer Aided
// Geometric Design 8:227; from memory).
func oval(c pt, a, b, degrees float64) curve {
	const k = 0.5523
	f := wingFrame(c, 1, degrees)
	at := func(x, y float64) pt { return f.at(a*x, b*y) }
	return curve{start: at(1, 0), closed: true, cubics: [][3]pt{
		{at(1, k), at(k, 1), at(0, 1)}, {at(-k, 1), at(-1, k), at(-1, 0)},
		{at(-1, -k), at(-k, -1), at(0, -1)}, {at(k, -1), at(1, -k), at(1, 0)},
	}}
}
