package chart

// The young under water: nymphs from above, larvae and pupae from the side.

import "math"

func nymph(in Insect, f *figure) {
	f.bodyAndLegs(in)
	b := bodyFrame(in.BodyMM)
	stone := in.Order == Stonefly
	f.tailsAbove(in, b.at(0.985, 0), in.BodyMM, in.BodyMM*0.024)

	axis := line(b.at(0.420, 0), b.at(1, 0))
	half := func(t float64) float64 { return in.BodyMM * (0.090 - 0.052*t*t) }
	feeler := 0.26
	if stone {
		feeler = 0.48
		half = func(t float64) float64 { return in.BodyMM * (0.094 - 0.044*math.Pow(t, 3)) }
	}
	for _, s := range []float64{-1, 1} {
		f.stroke(through(false, b.all(0.020, 0.030*s, -0.4*feeler, 0.030*s+0.22*feeler*s, -0.9*feeler, 0.030*s+0.34*feeler*s)...), 1.1)
		for _, leg := range [][]float64{
			{0.210, 0.080, 0.150, 0.205, 0.050, 0.250, -0.010, 0.245},
			{0.300, 0.095, 0.320, 0.230, 0.390, 0.310, 0.430, 0.345},
			{0.385, 0.095, 0.480, 0.205, 0.610, 0.275, 0.670, 0.295},
		} {
			p := make([]pt, 4)
			for i := range p {
				p[i] = b.at(leg[2*i], leg[2*i+1]*s)
			}
			f.leg(in.Legs, in.BodyMM*0.048, p[0], p[1], p[2], p[3])
		}
		if !stone { // a plate of gill at the side of seven segments
			for i := range 7 {
				t := (float64(i) + 0.75) / 10
				root := axis.at(t).plus(pt{0, s * half(t) * 0.9})
				g := wingFrame(root, in.BodyMM*0.075, -38*s)
				c := through(true, g.all(0, 0, 0.35, -0.24, 0.80, -0.22, 1, 0, 0.80, 0.22, 0.35, 0.24)...)
				f.add(shape{curve: c, fill: orBlank(in.Body), opacity: 0.45, width: f.line() * 0.7})
				f.mark(line(root, g.at(0.9, 0)), "", 0.5)
			}
		}
	}
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 10, half)
	f.solid(through(true, b.all(0.150, 0, 0.160, -0.082, 0.230, -0.108, 0.340, -0.116, 0.430, -0.104, 0.465, 0,
		0.430, 0.104, 0.340, 0.116, 0.230, 0.108, 0.160, 0.082)...), in.Body)
	f.mark(through(false, b.all(0.245, -0.106, 0.256, 0, 0.245, 0.106)...), in.Body, 0.7)
	f.mark(line(b.at(0.165, 0), b.at(0.330, 0)), in.Body, 0.5)
	pads := [][]float64{{0.275, 0.020, 0.300, 0.098, 0.400, 0.112, 0.505, 0.088, 0.535, 0.052, 0.440, 0.030, 0.330, 0.012}}
	if stone {
		pads = [][]float64{
			{0.360, 0.020, 0.380, 0.100, 0.440, 0.124, 0.500, 0.116, 0.490, 0.070, 0.430, 0.040},
			{0.250, 0.020, 0.260, 0.106, 0.320, 0.132, 0.385, 0.122, 0.375, 0.070, 0.320, 0.040},
		}
	}
	for _, s := range []float64{-1, 1} { // wing pads
		for _, pad := range pads {
			p := make([]pt, len(pad)/2)
			for i := range p {
				p[i] = b.at(pad[2*i], pad[2*i+1]*s)
			}
			f.solid(through(true, p...), in.Body)
		}
	}
	f.solid(through(true, b.all(0, 0, 0.010, -0.046, 0.060, -0.086, 0.130, -0.088, 0.165, -0.050, 0.170, 0, 0.165, 0.050, 0.130, 0.088, 0.060, 0.086, 0.010, 0.046)...), in.Body)
	f.eye(b.at(0.105, -0.066), in.BodyMM*0.028)
	f.eye(b.at(0.105, 0.066), in.BodyMM*0.028)
}

func larva(in Insect, f *figure) {
	b := bodyFrame(in.BodyMM)
	if in.Body == "" {
		f.lacks(PartBody)
	}
	if in.Order == Midge {
		midgeLarva(in, f, b)
		return
	}
	if in.Legs == "" {
		f.lacks(PartLegs)
	}
	axis := through(false, b.all(0.200, -0.004, 0.400, -0.026, 0.620, -0.022, 0.820, 0.002, 1, 0.026)...)
	half := func(t float64) float64 { return in.BodyMM * (0.062 + 0.014*math.Sin(math.Pi*t) - 0.024*math.Pow(t, 4)) }
	if in.Order == Alder {
		half = func(t float64) float64 { return in.BodyMM * (0.068 - 0.048*math.Pow(t, 1.6)) }
		// one feathered thread behind, and a jointed thread beside each of seven segments
		tail := through(false, axis.at(0.99), axis.at(0.99).plus(b.v.times(0.022)).plus(b.u.times(0.12)), axis.at(0.99).plus(b.v.times(0.02)).plus(b.u.times(0.27)))
		f.solid(tapered(tail, in.BodyMM*0.034, in.BodyMM*0.006), in.Body)
		if f.detail {
			for i := range 9 {
				t := 0.1 + 0.1*float64(i)
				p := tail.at(t)
				reach := in.BodyMM * 0.05 * (1 - 0.6*t)
				f.vein(line(p, p.plus(pt{reach, -reach})), 0.7)
				f.vein(line(p, p.plus(pt{reach, reach})), 0.7)
			}
		}
		for i := range 7 {
			t := (float64(i) + 0.5) / 9.5
			p := axis.at(t).plus(pt{0, half(t) * 0.6})
			c := through(false, p, p.plus(pt{in.BodyMM * 0.035, in.BodyMM * 0.070}), p.plus(pt{in.BodyMM * 0.095, in.BodyMM * 0.105}))
			f.solid(tapered(c, in.BodyMM*0.018, in.BodyMM*0.005), in.Body)
		}
	}
	for _, leg := range [][]float64{
		{0.270, 0.045, 0.330, 0.110, 0.300, 0.175, 0.265, 0.195},
		{0.200, 0.050, 0.235, 0.115, 0.190, 0.175, 0.155, 0.190},
		{0.140, 0.045, 0.140, 0.105, 0.090, 0.150, 0.060, 0.160},
	} {
		p := b.all(leg...)
		f.leg(in.Legs, in.BodyMM*0.030, p[0], p[1], p[2], p[3])
	}
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 9, half)
	if in.Order == Sedge { // a hooked foot behind
		f.stroke(through(false, b.all(0.960, 0.050, 0.985, 0.090, 0.960, 0.110)...), 1.8)
	}
	f.solid(through(true, b.all(0.185, -0.064, 0.260, -0.070, 0.275, 0, 0.255, 0.064, 0.190, 0.058)...), in.Body)
	f.solid(through(true, b.all(0.095, -0.050, 0.150, -0.066, 0.200, -0.064, 0.205, 0, 0.190, 0.056, 0.110, 0.050)...), in.Body)
	f.solid(through(true, b.all(0, 0.020, 0.012, -0.024, 0.060, -0.052, 0.108, -0.048, 0.118, 0.004, 0.104, 0.046, 0.040, 0.050)...), in.Body)
	f.eye(b.at(0.062, -0.012), in.BodyMM*0.012)
	f.stroke(through(false, b.all(0.012, 0.030, -0.018, 0.040, -0.012, 0.064)...), 1.4)
}

func midgeLarva(in Insect, f *figure, b frame) {
	axis := through(false, b.all(0.060, 0.010, 0.220, -0.030, 0.420, -0.010, 0.620, 0.034, 0.820, 0.014, 1, -0.030)...)
	half := func(t float64) float64 { return in.BodyMM * (0.030 + 0.010*math.Sin(math.Pi*t)) }
	f.solid(tapered(through(false, b.all(0.110, 0.020, 0.104, 0.052, 0.084, 0.072)...), in.BodyMM*0.026, in.BodyMM*0.016), in.Body)
	f.solid(tapered(through(false, b.all(0.968, 0.000, 0.985, 0.032, 0.975, 0.058)...), in.BodyMM*0.026, in.BodyMM*0.016), in.Body)
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 12, half)
	for _, x := range []float64{0.955, 0.970} {
		f.stroke(through(false, b.all(x, -0.055, x+0.006, -0.085, x+0.022, -0.105)...), 0.7)
	}
	f.solid(through(true, b.all(0, 0.022, 0.020, -0.012, 0.064, -0.024, 0.086, 0.010, 0.066, 0.042, 0.020, 0.044)...), in.Body)
	f.eye(b.at(0.046, 0.004), in.BodyMM*0.008)
}

func sedgePupa(in Insect, f *figure) {
	f.bodyAndLegs(in)
	b := bodyFrame(in.BodyMM)
	axis := through(false, b.all(0.330, 0.000, 0.520, 0.008, 0.760, 0.020, 1, 0.062)...)
	half := func(t float64) float64 { return in.BodyMM * (0.098 - 0.058*math.Pow(t, 1.5)) }
	f.leg(in.Legs, in.BodyMM*0.024, b.at(0.200, 0.090), b.at(0.150, 0.170), b.at(0.070, 0.225), b.at(0.030, 0.250))
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 8, half)
	f.solid(through(true, b.all(0.080, -0.020, 0.130, -0.098, 0.250, -0.126, 0.370, -0.104, 0.420, 0.000, 0.360, 0.100, 0.220, 0.112, 0.110, 0.066)...), in.Body)
	// the folded wing in its sheath, along the side and under
	if in.Wing == "" {
		f.lacks(PartWing)
	}
	f.solid(through(true, b.all(0.235, -0.050, 0.330, -0.030, 0.450, 0.030, 0.570, 0.120, 0.600, 0.165, 0.500, 0.160, 0.360, 0.120, 0.260, 0.060)...), in.Wing)
	f.mark(through(false, b.all(0.280, -0.010, 0.410, 0.060, 0.560, 0.145)...), in.Wing, 0.6)
	f.mark(through(false, b.all(0.270, 0.030, 0.390, 0.095, 0.530, 0.150)...), in.Wing, 0.6)
	f.solid(through(true, b.all(0, 0.030, 0.015, -0.034, 0.070, -0.066, 0.124, -0.040, 0.130, 0.036, 0.080, 0.076, 0.025, 0.072)...), in.Body)
	f.eye(b.at(0.070, -0.004), in.BodyMM*0.034)
	// feelers laid back along the body
	f.stroke(through(false, b.all(0.050, -0.056, 0.140, -0.110, 0.340, -0.060, 0.620, 0.020, 0.860, 0.080)...), 0.9)
	// the swimming leg with its fringe
	p := b.all(0.280, 0.105, 0.360, 0.205, 0.520, 0.235, 0.680, 0.225)
	f.leg(in.Legs, in.BodyMM*0.032, p[0], p[1], p[2], p[3])
	if f.detail {
		shin := line(p[1], p[2], p[3])
		for i := range 12 {
			q := shin.at(0.30 + 0.06*float64(i))
			f.vein(line(q, q.plus(b.all(0.030, 0.046)[0])), 0.6)
		}
	}
	p = b.all(0.200, 0.105, 0.220, 0.190, 0.310, 0.250, 0.370, 0.275)
	f.leg(in.Legs, in.BodyMM*0.026, p[0], p[1], p[2], p[3])
}

func midgePupa(in Insect, f *figure) {
	if in.Body == "" {
		f.lacks(PartBody)
	}
	b := bodyFrame(in.BodyMM)
	axis := through(false, b.all(0.280, 0.010, 0.470, -0.020, 0.700, 0.030, 0.880, 0.120, 1, 0.225)...)
	half := func(t float64) float64 { return in.BodyMM * (0.068 - 0.034*t) }
	// white breathing threads on the thorax
	for i := range 7 {
		a := 100 + 14*float64(i)
		root := b.at(0.120, -0.105)
		w := wingFrame(root, in.BodyMM*(0.16-0.008*math.Abs(float64(i)-3)), a)
		f.stroke(through(false, w.all(0, 0, 0.5, -0.08, 1, 0.10)...), 0.8)
	}
	f.solid(through(true, b.all(0.965, 0.205, 1, 0.215, 0.985, 0.300, 0.930, 0.310, 0.920, 0.250)...), in.Body)
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 8, half)
	f.solid(through(true, b.all(0, 0.035, 0.020, -0.060, 0.110, -0.128, 0.230, -0.122, 0.320, -0.060, 0.345, 0.040, 0.280, 0.130, 0.150, 0.156, 0.040, 0.120)...), in.Body)
	// wing sheath and folded legs
	f.mark(through(false, b.all(0.150, -0.060, 0.240, -0.020, 0.310, 0.060, 0.280, 0.125)...), in.Body, 0.8)
	f.mark(through(false, b.all(0.150, -0.060, 0.130, 0.030, 0.190, 0.110, 0.280, 0.125)...), in.Body, 0.8)
	f.mark(through(false, b.all(0.060, 0.110, 0.090, 0.040, 0.110, -0.020)...), in.Body, 0.6)
	f.mark(through(false, b.all(0.185, 0.000, 0.230, 0.050, 0.260, 0.110)...), in.Body, 0.6)
	f.eye(b.at(0.055, 0.020), in.BodyMM*0.032)
}
