package chart

// Fewer curves for the same line, where a figure is drawn at life size: what the eye and the printer
// can't tell apart need not be carried to a phone by the bank. Runs of curves that go on smoothly
// are laid again as one, by least squares on points of the old (P. J. Schneider, "An algorithm for
// automatically fitting digitized curves", Graphics Gems, 1990, pages 612–626; from memory).

import "math"

const (
	fewerWithin  = 0.05 // mm on the page; the lines are 0.13 mm wide
	fewerSamples = 6    // points of each old curve that the new one is held against
	fewerTurn    = 0.94 // cosine of the sharpest bend within a run, about 20°
	fewerRounds  = 4    // of placing the points along the new curve
)

func (a pt) dot(b pt) float64 { return float64(a.x*b.x) + float64(a.y*b.y) }

// unit is a's direction; zero for a point.
func (a pt) unit() pt {
	if n := a.length(); n > 1e-12 {
		return a.times(1 / n)
	}
	return pt{}
}

func cubicAt(p0 pt, c [3]pt, t float64) pt {
	u := 1 - t
	a, b := p0.times(float64(u*u)*u).plus(c[0].times(3*float64(u*u)*t)), c[1].times(3*float64(u*t)*t).plus(c[2].times(float64(t*t)*t))
	return a.plus(b)
}

// fewer gives a curve that stays within a distance of c, of as few cubics as were found.
func (c curve) fewer(within float64) curve {
	out := curve{start: c.start, closed: c.closed}
	from := c.start
	for i := 0; i < len(c.cubics); {
		best, n := c.cubics[i], 1
		if c.cubics[i] != straight(from, c.cubics[i][2]) {
			end := c.cubics[i]
			for j := i + 1; j < len(c.cubics); j++ {
				next := c.cubics[j]
				if next == straight(end[2], next[2]) || end[2].minus(end[1]).unit().dot(next[0].minus(end[2]).unit()) < fewerTurn {
					break
				}
				fit, ok := oneCubic(from, c.cubics[i:j+1], within)
				if !ok {
					break
				}
				best, n, end = fit, j+1-i, next
			}
		}
		out.cubics = append(out.cubics, best)
		from = best[2]
		i += n
	}
	return out
}

// oneCubic lays one cubic along several, and says whether it stays as near as is wanted.
func oneCubic(from pt, run [][3]pt, within float64) ([3]pt, bool) {
	last := run[len(run)-1]
	to := last[2]
	out, in := run[0][0].minus(from).unit(), last[1].minus(to).unit()
	var points []pt
	at := from
	for _, c := range run {
		for k := 1; k <= fewerSamples; k++ {
			points = append(points, cubicAt(at, c, float64(k)/fewerSamples))
		}
		at = c[2]
	}
	points = points[:len(points)-1] // the end stands
	along, long, before := make([]float64, len(points)), 0.0, from
	for i, p := range points {
		long += p.minus(before).length()
		along[i], before = long, p
	}
	long += to.minus(before).length()
	if long < 1e-9 || out == (pt{}) || in == (pt{}) {
		return [3]pt{}, false
	}
	for i := range along {
		along[i] /= long
	}
	var fit [3]pt
	for range fewerRounds {
		// The handles' lengths a and b: two linear equations of least squares.
		var aa, ab, bb, ax, bx float64
		for i, p := range points {
			t, u := along[i], 1-along[i]
			b0, b1, b2, b3 := float64(u*u)*u, 3*float64(u*u)*t, 3*float64(u*t)*t, float64(t*t)*t
			off := p.minus(from.times(b0 + b1)).minus(to.times(b2 + b3))
			one, two := out.times(b1), in.times(b2)
			aa, ab, bb = aa+one.dot(one), ab+one.dot(two), bb+two.dot(two)
			ax, bx = ax+one.dot(off), bx+two.dot(off)
		}
		det := float64(aa*bb) - float64(ab*ab)
		if math.Abs(det) < 1e-15 {
			return [3]pt{}, false
		}
		a, b := (float64(ax*bb)-float64(bx*ab))/det, (float64(aa*bx)-float64(ab*ax))/det
		if a <= 0 || b <= 0 || a > long || b > long {
			return [3]pt{}, false
		}
		fit = [3]pt{from.plus(out.times(a)), to.plus(in.times(b)), to}
		worst := 0.0
		for i, p := range points {
			along[i] = nearest(from, fit, p, along[i])
			worst = max(worst, cubicAt(from, fit, along[i]).minus(p).length())
		}
		if worst <= within {
			return fit, true
		}
	}
	return fit, false
}

// nearest moves t by one step of Newton's towards the point of the curve that is nearest to p.
func nearest(from pt, c [3]pt, p pt, t float64) float64 {
	const h = 1e-4
	t = min(max(t, h), 1-h)
	here, before, after := cubicAt(from, c, t), cubicAt(from, c, t-h), cubicAt(from, c, t+h)
	first := after.minus(before).times(1 / (2 * h))
	second := after.plus(before).minus(here.times(2)).times(1 / (h * h))
	off := here.minus(p)
	if bend := first.dot(first) + off.dot(second); bend > 1e-12 {
		t -= off.dot(first) / bend
	}
	return min(max(t, 0), 1)
}
