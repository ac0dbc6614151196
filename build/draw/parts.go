package draw

// Parts that a partial gives a few numbers for: legs, threads, trunks, tails, antennae.

import (
	"cmp"
	"math"
)

// leg is an outline through coxa, knee, ankle and foot, thickest in the middle of the thigh; v is
// its width and, where they aren't the common ones, belly, foot and shin as shares of it.
func leg(at []pt, v []float64) curve {
	if v[1] == 0 {
		v[1], v[2], v[3] = 1.25, 0.22, 0.42
	}
	off := func(p, q pt, w float64) pt { return q.minus(p).unit().across().times(-w * v[0] / 2) }
	thigh := mix(at[0], at[1], 0.45)
	mid := []pt{at[0], thigh, at[1], at[2], at[3]}
	by := []pt{
		off(at[0], at[1], 0.8), off(at[0], at[1], v[1]), off(at[0], at[2], 0.6), off(at[1], at[3], v[3]), off(at[2], at[3], v[2]),
	}
	c := curve{closed: true}
	for i := range mid {
		c.at = append(c.at, mid[i].plus(by[i]))
	}
	for i := len(mid) - 2; i >= 0; i-- {
		c.at = append(c.at, mid[i].minus(by[i]))
	}
	return c
}

// taper is a thread along a curve.
func taper(along curve, from, to float64) curve {
	const n = 3
	c := curve{bend: smooth, closed: true, at: make([]pt, 2*n+2)}
	for i := range n + 1 {
		t := float64(i) / n
		by := along.side(t).times((from + (to-from)*t) / 2)
		c.at[i], c.at[2*n+1-i] = along.on(t).plus(by), along.on(t).minus(by)
	}
	return c
}

// trunk draws a body with its joints and bands.
func (w *writer) trunk(n *node, m affine) {
	v := n.list("data-trunk", 3)
	stout, bent := cmp.Or(w.f.Stout, 1), cmp.Or(w.f.Bent, 1)
	half := func(t float64) float64 { return (v[0] - v[1]*math.Pow(t, v[2]*bent)) * stout }
	off := func(t, o float64) pt { return n.c[0].on(t).plus(n.c[0].side(t).times(o * half(t))) }
	at := []float64{0, 0.3, 0.6, 0.86, 0.96}
	c := curve{bend: smooth, closed: true, at: make([]pt, 2*len(at)+1)}
	for i, t := range at {
		o := 1.0
		if t > 0.95 {
			o = 0.8
		}
		c.at[i], c.at[2*len(at)-i] = off(t, o), off(t, -o)
	}
	c.at[len(at)] = n.c[0].on(1)
	fill := n.attr["fill"]
	w.add(shape{class: "b", fill: fill}, "", c.through(m))
	rings := int(n.list("data-rings", 1)[0])
	line := func(t float64) curve { return curve{at: []pt{off(t, 1), off(t, -1)}}.through(m) }
	for i := 1; i < rings; i++ {
		t := float64(i) / float64(rings)
		if w.f.Bands == "all" {
			w.add(shape{class: "s", stroke: fill + " shade 50", width: 26 * m.size()}, "", line(t-0.014))
		}
		if w.f.Bands == "last" && i >= rings-4 { // two long streaks on each of the last segments
			a, b := t+0.012, t+0.08
			w.add(shape{class: "t", fill: fill + " mark 72"}, "",
				curve{closed: true, at: []pt{off(a, 1), off(b, 0.85), off(b, 0.25), off(a, 0.48)}}.through(m),
				curve{closed: true, at: []pt{off(a, -0.3), off(b, -0.1), off(b, -0.6), off(a, -0.68)}}.through(m))
		}
	}
	for i := 1; i < rings; i++ {
		w.add(shape{class: "m", stroke: fill + " shade 45"}, "", line(float64(i)/float64(rings)))
	}
}

// tails draws the tails from a point. data-fan is: the middle's angle for short tails and for long
// ones, the spread between two and between three, the width.
func (w *writer) tails(n *node, m affine) {
	v := n.list("data-fan", 5)
	root := pt{n.list("x", 1)[0], n.list("y", 1)[0]}
	base, spread := v[0], v[2]
	if w.f.TailRatio >= 1.3 {
		base = v[1]
	}
	if w.f.Tails == 3 {
		spread = v[3]
	}
	var along []curve
	for i := range w.f.Tails {
		long := turned(base+spread*(float64(w.f.Tails-1)/2-float64(i)), w.f.TailRatio*1000)
		droop := long.across().times(-math.Copysign(math.Min(base, 1), 1))
		along = append(along, curve{bend: smooth, at: []pt{root, root.plus(long.times(0.5)).plus(droop.times(-0.035)),
			root.plus(long).plus(droop.times(0.05))}})
	}
	for _, c := range along {
		w.add(shape{class: "b", fill: "tail"}, "tails", taper(c, v[4], v[4]/4).through(m))
	}
	if w.f.Has["ringed tails"] {
		for _, c := range along {
			s := shape{class: "s", stroke: "tail shade 60", width: v[4] * 0.7 * m.size()}
			s.dash = []float64{20 * m.size(), 50 * m.size()}
			w.add(s, "", c.through(m))
		}
	}
}

// antenna draws one thread from a point at an angle; data-bow holds four offsets of its length at
// 0, ⅓, ⅔ and 1 of it.
func (w *writer) antenna(n *node, m affine) {
	v, root := n.list("data-bow", 6), pt{n.list("x", 1)[0], n.list("y", 1)[0]}
	long := turned(v[0], w.f.Antenna*1000)
	across := long.across().times(-1)
	c := curve{bend: smooth}
	for i, t := range []float64{0, 0.35, 0.7, 1} {
		c.at = append(c.at, root.plus(long.times(t)).plus(across.times(v[i+2]/1000)))
	}
	w.add(shape{class: "b", fill: "antenna"}, "antenna", taper(c, v[1], v[1]*0.4).through(m))
	if w.f.Has["ringed antennae"] {
		s := shape{class: "s", stroke: "antenna ring 75", width: v[1] * m.size()}
		s.dash = []float64{30 * m.size(), 35 * m.size()}
		w.add(s, "", c.through(m))
	}
}
