package chart

// Sedge and alder from the side, wings like a roof over the body, and the
// stonefly from above, wings flat on its back. Their length is the one at rest,
// head to wing tip.

// atRest gives the whole length and where the wing begins on it (share of the
// length). known is false where neither the length at rest nor the wing is given:
// then the wing is drawn dashed at a common proportion.
func (in Insect) atRest(root, bodyShare float64) (whole, start float64, known bool) {
	switch {
	case in.OverallMM > 0:
		whole = in.OverallMM
		if s := 1 - in.WingMM/whole; in.WingMM > 0 && s > 0.04 && s < 0.35 {
			return whole, s, true // the measured wing fits the measured length
		}
		return whole, root, true
	case in.WingMM > 0:
		return in.WingMM / (1 - root), root, true
	}
	return in.BodyMM / bodyShare, root, false
}

func roofWinged(in Insect, f *figure) {
	whole, start, known := in.atRest(0.13, 0.78)
	if !known {
		f.lacks(PartWingLength)
	}
	f.bodyAndLegs(in)
	b := bodyFrame(whole)
	w := wingFrame(b.at(start, -0.040), whole*(1-start), 0)
	alder := in.Order == Alder
	thick := whole * 0.020

	// antennae: long and thin in a sedge, shorter and stouter in an alder
	if alder {
		f.stroke(through(false, b.all(0.035, -0.045, -0.060, -0.120, -0.180, -0.165, -0.300, -0.175)...), 1.5)
		f.stroke(through(false, b.all(0.030, -0.035, -0.080, -0.080, -0.190, -0.105, -0.290, -0.100)...), 1.5)
	} else {
		f.stroke(through(false, b.all(0.035, -0.050, -0.080, -0.150, -0.260, -0.250, -0.480, -0.300)...), 0.9)
		f.stroke(through(false, b.all(0.030, -0.040, -0.100, -0.105, -0.290, -0.170, -0.500, -0.190)...), 0.9)
	}
	// far legs
	f.leg(in.Legs, thick, b.at(0.240, 0.050), b.at(0.310, 0.110), b.at(0.330, 0.180), b.at(0.375, 0.205))
	f.leg(in.Legs, thick, b.at(0.120, 0.045), b.at(0.050, 0.080), b.at(0.005, 0.160), b.at(-0.050, 0.190))
	// abdomen, of which the wings leave a strip
	f.solid(through(true, b.all(0.170, -0.020, 0.450, -0.060, 0.720, -0.030, 0.760, 0.020, 0.700, 0.062, 0.500, 0.098, 0.320, 0.098, 0.180, 0.070)...), in.Body)
	// near legs
	for _, leg := range [][]float64{
		{0.280, 0.075, 0.400, 0.105, 0.440, 0.185, 0.510, 0.212},
		{0.210, 0.075, 0.220, 0.135, 0.265, 0.195, 0.310, 0.214},
		{0.130, 0.060, 0.090, 0.120, 0.040, 0.185, -0.010, 0.210},
	} {
		p := b.all(leg...)
		f.leg(in.Legs, thick*1.25, p[0], p[1], p[2], p[3])
	}
	// thorax and head
	f.solid(through(true, b.all(0.080, -0.030, 0.120, -0.072, 0.190, -0.088, 0.260, -0.070, 0.300, 0.020, 0.250, 0.086, 0.150, 0.080, 0.095, 0.040)...), in.Body)
	f.solid(through(true, b.all(0, 0, 0.012, -0.036, 0.050, -0.056, 0.095, -0.046, 0.108, 0.005, 0.090, 0.044, 0.040, 0.046, 0.008, 0.030)...), in.Body)
	f.stroke(through(false, b.all(0.025, 0.036, 0.000, 0.070, -0.020, 0.082)...), 1)
	f.stroke(through(false, b.all(0.045, 0.042, 0.030, 0.082, 0.015, 0.100)...), 1)
	f.eye(b.at(0.056, -0.014), whole*0.025)

	if in.Wing == "" {
		f.lacks(PartWing)
	}
	if alder {
		f.alderWing(in, w, known)
	} else {
		f.sedgeWing(in, w, known)
	}
}

func (f *figure) sedgeWing(in Insect, w frame, known bool) {
	outline := through(true, w.all(0, -0.020, 0.100, -0.064, 0.300, -0.104, 0.600, -0.128, 0.850, -0.128, 0.962, -0.092,
		1, -0.010, 0.962, 0.066, 0.850, 0.114, 0.640, 0.124, 0.400, 0.112, 0.180, 0.080, 0.030, 0.030)...)
	f.add(shape{curve: outline, fill: blank})
	f.add(f.tint(in, shape{curve: outline, width: f.line(), dashed: !known}))
	if !f.detail {
		return
	}
	f.vein(through(false, w.all(0.04, -0.025, 0.30, -0.076, 0.60, -0.098, 0.86, -0.100)...), 1)
	f.vein(through(false, w.all(0.08, 0.036, 0.40, 0.094, 0.64, 0.104, 0.86, 0.094)...), 1)
	margin := through(false, w.all(0.955, -0.085, 0.988, -0.040, 0.990, 0.020, 0.955, 0.070, 0.880, 0.104)...)
	for i := range 5 {
		end := margin.at((float64(i) + 0.5) / 5)
		stem := through(false, w.at(0.06, 0.000), w.at(0.33, -0.050+0.030*float64(i)), w.at(0.56, -0.066+0.036*float64(i)))
		f.vein(stem, 0.9)
		// each forks once
		a, b := margin.at((float64(i)+0.2)/5), margin.at((float64(i)+0.8)/5)
		fork := stem.end()
		f.vein(through(false, fork, mix(fork, a, 0.5).plus(end.minus(a).times(0.25)), a), 0.8)
		f.vein(through(false, fork, mix(fork, b, 0.5).plus(end.minus(b).times(0.25)), b), 0.8)
	}
	f.vein(line(w.at(0.60, -0.064), w.at(0.62, -0.022)), 0.7)
	f.vein(line(w.at(0.66, -0.020), w.at(0.67, 0.020)), 0.7)
}

func (f *figure) alderWing(in Insect, w frame, known bool) {
	outline := through(true, w.all(0, -0.030, 0.080, -0.086, 0.260, -0.146, 0.500, -0.172, 0.760, -0.148, 0.960, -0.070,
		1, 0.000, 0.960, 0.070, 0.850, 0.122, 0.620, 0.150, 0.360, 0.136, 0.150, 0.090, 0.030, 0.030)...)
	f.add(shape{curve: outline, fill: blank})
	f.add(f.tint(in, shape{curve: outline, width: f.line() * 1.1, dashed: !known}))
	if !f.detail {
		return
	}
	// heavy veins all the way, tied by heavy cross veins
	margin := through(false, w.all(0.90, -0.100, 0.985, -0.030, 0.985, 0.030, 0.90, 0.098, 0.74, 0.138)...)
	var long []curve
	for i := range 6 {
		end := margin.at((float64(i) + 0.3) / 5.8)
		s := float64(i) - 2.5
		c := through(false, w.at(0.04, 0.004*s), w.at(0.30, 0.036*s), w.at(0.58, 0.044*s), end)
		long = append(long, c)
		f.stroke(c, 0.75)
	}
	f.stroke(through(false, w.all(0.03, -0.030, 0.28, -0.118, 0.52, -0.142, 0.74, -0.122)...), 0.75)
	for i := range len(long) - 1 {
		for j, t := range []float64{0.36, 0.52, 0.68} {
			t += 0.04 * float64((i+j)%2)
			f.stroke(line(long[i].at(t), long[i+1].at(t)), 0.75)
		}
	}
}

func stonefly(in Insect, f *figure) {
	whole, start, known := in.atRest(0.20, 0.86)
	if !known {
		f.lacks(PartWingLength)
	}
	f.bodyAndLegs(in)
	if in.Wing == "" {
		f.lacks(PartWing)
	}
	b := bodyFrame(whole)
	body := in.BodyMM
	if body <= 0 || body > whole {
		body = whole * 0.82
	}
	f.tailsAbove(in, pt{body, 0}, body, whole*0.020)
	for _, s := range []float64{-1, 1} {
		f.stroke(through(false, b.all(0.020, 0.032*s, -0.080, 0.085*s, -0.200, 0.135*s, -0.340, 0.165*s)...), 1.1)
		for _, leg := range [][]float64{
			{0.150, 0.050, 0.105, 0.150, 0.030, 0.215, -0.020, 0.235},
			{0.235, 0.060, 0.270, 0.180, 0.330, 0.260, 0.365, 0.285},
			{0.300, 0.060, 0.400, 0.170, 0.520, 0.240, 0.575, 0.262},
		} {
			p := make([]pt, 4)
			for i := range p {
				p[i] = b.at(leg[2*i], leg[2*i+1]*s)
			}
			f.leg(in.Legs, whole*0.026, p[0], p[1], p[2], p[3])
		}
	}
	// thorax under the wings' roots
	f.solid(through(true, b.all(0.180, -0.058, 0.260, -0.078, 0.340, -0.070, 0.360, 0, 0.340, 0.070, 0.260, 0.078, 0.180, 0.058)...), in.Body)
	for _, s := range []float64{1, -1} { // one wing lies over the other
		f.flatWing(in, b, start, s, known)
	}
	// pronotum and head
	f.solid(through(true, b.all(0.112, 0, 0.116, -0.056, 0.160, -0.068, 0.204, -0.060, 0.212, 0, 0.204, 0.060, 0.160, 0.068, 0.116, 0.056)...), in.Body)
	f.mark(line(b.at(0.116, 0), b.at(0.208, 0)), in.Body, 0.6)
	f.solid(through(true, b.all(0, 0, 0.014, -0.036, 0.058, -0.066, 0.104, -0.054, 0.120, 0, 0.104, 0.054, 0.058, 0.066, 0.014, 0.036)...), in.Body)
	f.eye(b.at(0.070, -0.056), whole*0.018)
	f.eye(b.at(0.070, 0.056), whole*0.018)
	f.mark(line(b.at(0.060, -0.012), b.at(0.050, 0), b.at(0.060, 0.012)), in.Body, 0.6)
}

func (f *figure) flatWing(in Insect, b frame, start, s float64, known bool) {
	x := func(t float64) float64 { return start + (1-start)*t }
	pts := func(pairs ...float64) []pt {
		for i := 0; i < len(pairs); i += 2 {
			pairs[i], pairs[i+1] = x(pairs[i]), pairs[i+1]*s
		}
		return b.all(pairs...)
	}
	outline := through(true, pts(0, 0.030, 0.030, 0.068, 0.200, 0.094, 0.500, 0.108, 0.800, 0.100, 0.960, 0.070, 1, 0.022,
		0.960, -0.024, 0.750, -0.036, 0.450, -0.034, 0.150, -0.020, 0.020, 0.000)...)
	f.add(shape{curve: outline, fill: blank})
	f.add(f.tint(in, shape{curve: outline, width: f.line(), dashed: !known}))
	if !f.detail {
		return
	}
	var long []curve
	for i := range 5 {
		y := 0.078 - 0.024*float64(i)
		end := pts(0.975-0.012*float64(i%2), 0.062-0.019*float64(i))[0]
		c := through(false, pts(0.03, 0.040-0.006*float64(i))[0], pts(0.35, y)[0], pts(0.70, y+0.004)[0], end)
		long = append(long, c)
		f.vein(c, 0.9)
	}
	// the ladder of cross veins
	for i := range 10 {
		t := 0.26 + 0.055*float64(i)
		k := 2
		if i > 6 {
			k = i % 2
		}
		f.vein(line(long[k].at(t), long[k+1].at(t)), 0.7)
	}
}

// tailsAbove fans out tails for a figure seen from above.
func (f *figure) tailsAbove(in Insect, from pt, body, width float64) {
	if in.Tails == TailsUnknown {
		f.lacks(PartTailCount)
		return
	}
	ratio, known := in.TailRatio, in.TailRatio > 0
	if in.Tails > 0 && !known {
		ratio = 0.5
		f.lacks(PartTailLength)
	}
	if in.Tails > 0 && in.Tail == "" {
		f.lacks(PartTail)
	}
	for i := range in.Tails {
		s := float64(2*i)/float64(max(in.Tails-1, 1)) - 1
		w := wingFrame(from.plus(pt{0, s * width * 0.8}), body*ratio, -15*s)
		c := through(false, w.all(0, 0, 0.3, 0.025*s, 0.65, 0.020*s, 1, -0.035*s)...)
		c = scaled(c, c.start, body*ratio/c.long())
		if !known {
			f.add(shape{curve: c, width: f.line(), dashed: true})
			continue
		}
		f.add(shape{curve: tapered(c, width, width*0.3), fill: orBlank(in.Tail), width: f.line() * 0.6})
	}
}

// eye is a plain dark eye with a light in it.
func (f *figure) eye(at pt, r float64) {
	f.add(shape{curve: oval(at, r, r*1.1, 0), fill: ink})
	if f.detail {
		f.add(shape{curve: oval(at.plus(pt{-r * 0.3, -r * 0.35}), r*0.28, r*0.22, 30), fill: blank})
	}
}

func (f *figure) bodyAndLegs(in Insect) {
	if in.Body == "" {
		f.lacks(PartBody)
	}
	if in.Legs == "" {
		f.lacks(PartLegs)
	}
}
