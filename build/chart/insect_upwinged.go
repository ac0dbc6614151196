package chart

// Dun and spinner of an upwinged fly, from the side, wings upright.

import (
	"math"
	"slices"
)

func upwinged(in Insect, f *figure) {
	b := bodyFrame(in.BodyMM)
	axis := upwingedAxis(b)

	// far side first
	f.farLegs(in, b)
	f.tails(in, axis.at(0.985), in.BodyMM, -4)

	length, known := in.WingMM, in.WingMM > 0
	if !known {
		// Kluge (insecta.bio.spbu.ru): a mayfly's fore wing is about as long as its body.
		length = in.BodyMM
		f.lacks(PartWingLength)
	}
	root := b.at(0.235, -0.088)
	far := wingFrame(root.plus(b.v.times(0.012)), length*0.985, 58)
	f.add(shape{curve: foreWingOutline(far), fill: blank, opacity: 0.6, width: f.line() * 0.7, faint: true, dashed: !known})
	f.hindWing(in, b.at(0.31, -0.075), length)
	f.foreWing(in, wingFrame(root, length, 64), known)

	// abdomen, ten segments along its axis
	f.solid(trunk(axis, func(t float64) float64 { return in.BodyMM * (0.066 - 0.040*math.Pow(t, 1.25)) }), in.Body)
	f.segments(in, axis, 10, func(t float64) float64 { return in.BodyMM * (0.066 - 0.040*math.Pow(t, 1.25)) })

	// thorax, head, eyes
	f.solid(through(true, b.all(0.105, -0.030, 0.135, -0.070, 0.205, -0.104, 0.290, -0.092, 0.375, -0.062,
		0.385, 0.020, 0.330, 0.072, 0.235, 0.092, 0.150, 0.066, 0.110, 0.022)...), in.Body)
	f.mark(through(false, b.all(0.165, -0.086, 0.178, -0.030, 0.160, 0.060)...), in.Body, 0.6)
	f.mark(through(false, b.all(0.300, -0.088, 0.275, -0.030, 0.300, 0.020, 0.270, 0.080)...), in.Body, 0.6)
	f.stroke(through(false, b.all(0.020, -0.012, -0.030, -0.030, -0.075, -0.030)...), 0.7)
	f.solid(through(true, b.all(0, 0.005, 0.018, -0.034, 0.062, -0.054, 0.108, -0.042, 0.122, 0.004, 0.100, 0.044, 0.045, 0.050, 0.010, 0.034)...), in.Body)
	f.eyes(in, b)
	f.nearLegs(in, b)
}

// upwingedAxis is the middle line of the abdomen; its tip is raised, and lies
// one body length behind the front of the head.
func upwingedAxis(b frame) curve {
	return through(false, b.all(0.340, -0.004, 0.500, 0.006, 0.680, -0.004, 0.850, -0.034, 1, -0.082)...)
}

// trunk is the outline of a body along its axis, round at the hind end, open
// (hidden under the thorax) at the front.
func trunk(axis curve, half func(t float64) float64) curve {
	var upper, lower []pt
	for _, t := range []float64{0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.985} {
		w := half(t)
		if t > 0.88 {
			w *= math.Sqrt(1 - math.Pow((t-0.88)/0.12, 2))
		}
		p, d := axis.at(t), axis.normal(t).times(w)
		upper = append(upper, p.plus(d))
		lower = append([]pt{p.minus(d)}, lower...)
	}
	c := through(false, slices.Concat(upper, []pt{axis.at(1)}, lower)...)
	c.closed = true
	return c
}

// segments draws the rings of an abdomen; banded ones have a darker hind edge.
func (f *figure) segments(in Insect, axis curve, n int, half func(t float64) float64) {
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		ring := func(t float64) curve {
			p, d := axis.at(t), axis.normal(t).times(half(t))
			along := axis.at(math.Min(t+0.02, 1)).minus(axis.at(t - 0.02)).times(0.35)
			return through(false, p.plus(d), p.plus(along), p.minus(d))
		}
		if in.Bands {
			back, front := ring(t), ring(t-0.38/float64(n))
			f.add(shape{curve: joined(back, reversed(front)), fill: bandColour(in.Body), opacity: bandOpacity(in.Body)})
		}
		f.mark(ring(t), in.Body, 0.6)
	}
}

func bandColour(body string) string {
	if body == "" {
		return ink
	}
	return shade(body)
}

func bandOpacity(body string) float64 {
	if body == "" {
		return 0.55
	}
	return 0.9
}

func reversed(c curve) curve {
	p := []pt{c.start}
	for _, q := range c.cubics {
		p = append(p, q[2])
	}
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
	return through(false, p...)
}

func (f *figure) eyes(in Insect, b frame) {
	switch in.Eyes {
	case EyesTurban:
		// the upper part of a turban eye stands on the head like a mushroom
		f.solid(through(true, b.all(0.048, -0.040, 0.044, -0.072, 0.024, -0.092, 0.030, -0.122, 0.072, -0.134,
			0.116, -0.122, 0.124, -0.092, 0.104, -0.070, 0.098, -0.040)...), "#c9803c")
		f.mark(through(false, b.all(0.036, -0.082, 0.072, -0.078, 0.112, -0.082)...), "#c9803c", 0.6)
		f.add(shape{curve: oval(b.at(0.062, -0.006), in.BodyMM*0.032, in.BodyMM*0.036, 0), fill: ink})
	case EyesPlain:
		f.add(shape{curve: oval(b.at(0.064, -0.014), in.BodyMM*0.038, in.BodyMM*0.042, 10), fill: ink})
		f.add(shape{curve: oval(b.at(0.054, -0.028), in.BodyMM*0.010, in.BodyMM*0.008, 30), fill: blank})
	default:
		f.lacks(PartEyes)
		f.add(shape{curve: oval(b.at(0.064, -0.014), in.BodyMM*0.036, in.BodyMM*0.040, 10), fill: blank, width: f.line() * 0.7, dashed: true})
	}
}

func (f *figure) farLegs(in Insect, b frame) {
	w := in.BodyMM * 0.028
	f.leg(in.Legs, w, b.at(0.255, 0.060), b.at(0.250, 0.170), b.at(0.330, 0.260), b.at(0.365, 0.290))
	f.leg(in.Legs, w, b.at(0.165, 0.045), b.at(0.085, 0.085), b.at(-0.015, 0.170), b.at(-0.055, 0.235))
}

func (f *figure) nearLegs(in Insect, b frame) {
	if in.Legs == "" {
		f.lacks(PartLegs)
	}
	if in.Body == "" {
		f.lacks(PartBody)
	}
	w := in.BodyMM * 0.036
	f.leg(in.Legs, w, b.at(0.310, 0.066), b.at(0.425, 0.130), b.at(0.455, 0.250), b.at(0.515, 0.292))
	f.leg(in.Legs, w, b.at(0.235, 0.078), b.at(0.165, 0.165), b.at(0.195, 0.262), b.at(0.150, 0.294))
	f.leg(in.Legs, w, b.at(0.165, 0.060), b.at(0.060, 0.060), b.at(-0.075, 0.130), b.at(-0.135, 0.190))
}

// tails fans out the tails from the tip; turn is the fan's middle in degrees.
func (f *figure) tails(in Insect, from pt, body, turn float64) {
	if in.Tails == TailsUnknown {
		f.lacks(PartTailCount)
		return
	}
	if in.Tails <= 0 {
		return
	}
	ratio, known := in.TailRatio, in.TailRatio > 0
	if !known {
		ratio = 1
		f.lacks(PartTailLength)
	}
	if in.Tail == "" {
		f.lacks(PartTail)
	}
	spread := 9.0
	if in.Tails == 2 {
		spread = 15
	}
	for i := range in.Tails {
		angle := turn + 14 + spread*(float64(in.Tails-1)/2-float64(i))
		c := tailCurve(from, body*ratio, angle)
		if !known {
			f.add(shape{curve: c, width: f.line(), dashed: true})
			continue
		}
		f.add(shape{curve: tapered(c, body*0.022, body*0.006), fill: orBlank(in.Tail), width: f.line() * 0.6})
	}
}

// tailCurve is a slightly drooping thread of the given length along its way.
func tailCurve(from pt, length, angle float64) curve {
	w := wingFrame(from, length, angle)
	c := through(false, w.all(0, 0, 0.25, -0.022, 0.5, -0.026, 0.75, -0.008, 1, 0.045)...)
	return scaled(c, from, length/c.long())
}

// scaled grows a curve about a point.
func scaled(c curve, about pt, k float64) curve {
	move := func(p pt) pt { return about.plus(p.minus(about).times(k)) }
	out := curve{start: move(c.start), closed: c.closed}
	for _, q := range c.cubics {
		out.cubics = append(out.cubics, [3]pt{move(q[0]), move(q[1]), move(q[2])})
	}
	return out
}

func orBlank(colour string) string {
	if colour == "" {
		return blank
	}
	return colour
}
