package chart

// Two-winged flies from the side (the slender midge, the stout land-bred gnat),
// and the land-bred beetle and ant.

import "math"

// twoWings draws a fly's near wing laid back, and a hint of the far one.
func (f *figure) twoWings(in Insect, root pt, share, angle float64) {
	length, known := in.WingMM, in.WingMM > 0
	if !known {
		length = in.BodyMM * share
		f.lacks(PartWingLength)
	}
	if in.Wing == "" {
		f.lacks(PartWing)
	}
	far := wingFrame(root, length*0.98, angle+7)
	f.add(shape{curve: flyWing(far), fill: blank, opacity: 0.6, width: f.line() * 0.7, faint: true, dashed: !known})
	w := wingFrame(root, length, angle)
	f.add(f.tint(in, shape{curve: flyWing(w), width: f.line(), dashed: !known}))
	if !f.detail {
		return
	}
	f.vein(through(false, w.all(0.02, 0, 0.40, -0.052, 0.78, -0.042, 0.93, 0.002)...), 1.2)
	for i, end := range [][2]float64{{0.985, 0.020}, {0.985, 0.085}, {0.90, 0.150}, {0.70, 0.192}, {0.45, 0.180}} {
		bend := 0.020 + 0.030*float64(i)
		f.vein(through(false, w.at(0.05, 0.005), w.at(0.48*end[0], bend-0.030), w.at(end[0], end[1])), 0.9)
	}
	f.vein(line(w.at(0.42, -0.012), w.at(0.43, 0.036)), 0.7)
}

func flyWing(w frame) curve {
	return through(true, w.all(0, 0, 0.150, -0.046, 0.450, -0.078, 0.780, -0.060, 0.960, 0.004, 1, 0.055,
		0.960, 0.112, 0.780, 0.180, 0.520, 0.200, 0.280, 0.150, 0.090, 0.060)...)
}

func midge(in Insect, f *figure) {
	f.bodyAndLegs(in)
	b := bodyFrame(in.BodyMM)
	thin := in.BodyMM * 0.020
	axis := through(false, b.all(0.270, 0.000, 0.480, 0.030, 0.740, 0.044, 1, 0.040)...)
	half := func(t float64) float64 { return in.BodyMM * (0.050 - 0.022*t*t) }

	f.leg(in.Legs, thin, b.at(0.230, 0.050), b.at(0.400, -0.030), b.at(0.560, 0.220), b.at(0.720, 0.300))
	f.leg(in.Legs, thin, b.at(0.130, 0.030), b.at(-0.040, -0.110), b.at(-0.230, 0.010), b.at(-0.440, -0.090))
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 8, half)
	f.twoWings(in, b.at(0.235, -0.085), 0.75, 4)
	// humped thorax over a low head
	f.solid(through(true, b.all(0.080, 0.010, 0.100, -0.070, 0.160, -0.128, 0.240, -0.122, 0.305, -0.060, 0.315, 0.030, 0.260, 0.080, 0.160, 0.078, 0.095, 0.050)...), in.Body)
	f.mark(through(false, b.all(0.110, -0.056, 0.180, -0.060, 0.290, -0.030)...), in.Body, 0.6)
	f.mark(through(false, b.all(0.140, 0.070, 0.180, 0.010, 0.270, 0.020)...), in.Body, 0.6)
	for _, y := range []float64{0, 0.045} {
		f.stroke(through(false, b.all(0.025, 0.005, -0.060, -0.040+y, -0.170, -0.035+1.6*y)...), 0.8)
	}
	f.solid(oval(b.at(0.050, 0.024), in.BodyMM*0.050, in.BodyMM*0.046, 0), in.Body)
	f.eye(b.at(0.052, 0.018), in.BodyMM*0.030)
	f.stroke(through(false, b.all(0.045, 0.066, 0.055, 0.105, 0.075, 0.125)...), 0.9)
	for _, leg := range [][]float64{
		{0.270, 0.060, 0.440, 0.020, 0.620, 0.280, 0.800, 0.330},
		{0.200, 0.070, 0.180, 0.220, 0.290, 0.310, 0.400, 0.340},
		{0.130, 0.050, -0.020, -0.060, -0.200, 0.080, -0.400, 0.020},
	} {
		p := b.all(leg...)
		f.leg(in.Legs, thin*1.2, p[0], p[1], p[2], p[3])
	}
}

func gnat(in Insect, f *figure) {
	f.bodyAndLegs(in)
	b := bodyFrame(in.BodyMM)
	w := in.BodyMM * 0.038
	axis := through(false, b.all(0.320, 0.010, 0.520, 0.030, 0.760, 0.050, 1, 0.055)...)
	half := func(t float64) float64 { return in.BodyMM * (0.086 - 0.058*math.Pow(t, 1.6)) }

	f.leg(in.Legs, w*0.8, b.at(0.300, 0.080), b.at(0.470, 0.190), b.at(0.620, 0.360), b.at(0.720, 0.420))
	f.leg(in.Legs, w*0.8, b.at(0.150, 0.070), b.at(0.060, 0.120), b.at(0.020, 0.230), b.at(-0.030, 0.290))
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 7, half)
	f.twoWings(in, b.at(0.290, -0.090), 0.85, 1)
	f.solid(through(true, b.all(0.100, 0.020, 0.110, -0.060, 0.180, -0.126, 0.280, -0.126, 0.370, -0.066, 0.390, 0.040, 0.320, 0.104, 0.190, 0.110, 0.120, 0.080)...), in.Body)
	f.mark(through(false, b.all(0.135, -0.060, 0.220, -0.062, 0.350, -0.040)...), in.Body, 0.6)
	f.solid(through(true, b.all(0, 0.060, 0.020, 0.012, 0.075, -0.010, 0.118, 0.020, 0.122, 0.070, 0.085, 0.096, 0.030, 0.100)...), in.Body)
	f.eye(b.at(0.070, 0.030), in.BodyMM*0.036)
	f.stroke(through(false, b.all(0.010, 0.055, -0.030, 0.070, -0.060, 0.090)...), 1.6)
	f.stroke(through(false, b.all(0.030, 0.096, 0.030, 0.130, 0.045, 0.150)...), 1)
	for _, leg := range [][]float64{
		{0.330, 0.090, 0.520, 0.160, 0.690, 0.330, 0.800, 0.400},
		{0.250, 0.100, 0.270, 0.230, 0.350, 0.360, 0.400, 0.420},
		{0.170, 0.095, 0.110, 0.170, 0.090, 0.290, 0.030, 0.350},
	} {
		p := b.all(leg...)
		f.leg(in.Legs, w*1.15, p[0], p[1], p[2], p[3])
	}
}

func beetle(in Insect, f *figure) {
	f.bodyAndLegs(in)
	if in.Wing == "" {
		f.lacks(PartWing)
	}
	b := bodyFrame(in.BodyMM)
	for _, s := range []float64{-1, 1} {
		f.stroke(through(false, b.all(0.040, 0.050*s, -0.050, 0.110*s, -0.130, 0.130*s, -0.190, 0.180*s)...), 1.4)
		for _, leg := range [][]float64{
			{0.230, 0.170, 0.200, 0.330, 0.100, 0.390, 0.050, 0.400},
			{0.400, 0.210, 0.430, 0.380, 0.520, 0.450, 0.560, 0.470},
			{0.560, 0.210, 0.680, 0.360, 0.830, 0.400, 0.890, 0.400},
		} {
			p := make([]pt, 4)
			for i := range p {
				p[i] = b.at(leg[2*i], leg[2*i+1]*s)
			}
			f.leg(in.Legs, in.BodyMM*0.042, p[0], p[1], p[2], p[3])
		}
	}
	f.solid(through(true, b.all(0, 0, 0.012, -0.062, 0.070, -0.110, 0.170, -0.100, 0.190, 0, 0.170, 0.100, 0.070, 0.110, 0.012, 0.062)...), in.Body)
	f.eye(b.at(0.080, -0.090), in.BodyMM*0.026)
	f.eye(b.at(0.080, 0.090), in.BodyMM*0.026)
	f.solid(joined(through(false, b.all(0.150, -0.110, 0.140, 0, 0.150, 0.110)...), through(false, b.all(0.240, 0.190, 0.305, 0.200)...), through(false, b.all(0.312, 0, 0.305, -0.200)...), through(false, b.all(0.240, -0.190, 0.150, -0.110)...)), in.Body)
	for _, s := range []float64{-1, 1} { // the two wing cases
		f.solid(joined(through(false, b.all(0.305, 0, 0.303, 0.190*s, 0.420, 0.232*s, 0.620, 0.236*s, 0.820, 0.180*s, 0.940, 0.090*s, 1, 0)...)), in.Wing)
		for _, y := range []float64{0.06, 0.12, 0.18} {
			f.mark(through(false, b.all(0.330, y*s, 0.600, 1.06*y*s, 0.770, 0.86*y*s, 0.900-0.5*y, 0.60*y*s)...), in.Wing, 0.6)
		}
	}
}

func ant(in Insect, f *figure) {
	f.bodyAndLegs(in)
	b := bodyFrame(in.BodyMM)
	thin := in.BodyMM * 0.028
	f.leg(in.Legs, thin*0.8, b.at(0.410, 0.060), b.at(0.500, 0.030), b.at(0.620, 0.250), b.at(0.680, 0.275))
	f.leg(in.Legs, thin*0.8, b.at(0.270, 0.060), b.at(0.200, 0.080), b.at(0.110, 0.250), b.at(0.060, 0.275))
	axis := through(false, b.all(0.620, 0.005, 0.760, 0.000, 0.900, 0.012, 1, 0.028)...)
	half := func(t float64) float64 { return in.BodyMM * (0.012 + 0.110*math.Sin(math.Pi*math.Pow(t, 0.75))) }
	f.solid(trunk(axis, half), in.Body)
	f.segments(in, axis, 5, half)
	f.solid(through(true, b.all(0.520, 0.010, 0.550, -0.040, 0.580, -0.080, 0.610, -0.050, 0.630, 0.020, 0.570, 0.040)...), in.Body)
	if in.WingMM > 0 {
		f.twoWings(in, b.at(0.360, -0.080), 1, 20)
	} else {
		f.lacks(PartWings)
	}
	f.solid(through(true, b.all(0.200, 0.020, 0.220, -0.060, 0.300, -0.092, 0.400, -0.084, 0.480, -0.050, 0.540, 0.000, 0.520, 0.050, 0.420, 0.078, 0.280, 0.072)...), in.Body)
	f.mark(through(false, b.all(0.330, -0.088, 0.350, -0.020, 0.330, 0.070)...), in.Body, 0.6)
	f.solid(through(true, b.all(0, 0.045, 0.020, -0.030, 0.090, -0.076, 0.180, -0.060, 0.215, 0.005, 0.180, 0.064, 0.090, 0.086, 0.020, 0.086)...), in.Body)
	f.eye(b.at(0.110, -0.018), in.BodyMM*0.024)
	for _, y := range []float64{0, 0.030} { // elbowed feelers
		f.stroke(line(b.at(0.030, 0.010), b.at(-0.070, -0.110+y)), 1)
		f.stroke(through(false, b.all(-0.070, -0.110+y, -0.140, -0.040+y, -0.180, 0.040+y)...), 1.4)
	}
	f.stroke(through(false, b.all(0.010, 0.070, -0.020, 0.085, -0.010, 0.110)...), 1.2)
	for _, leg := range [][]float64{
		{0.440, 0.065, 0.560, 0.040, 0.680, 0.260, 0.750, 0.290},
		{0.350, 0.070, 0.380, 0.150, 0.370, 0.265, 0.420, 0.292},
		{0.270, 0.065, 0.180, 0.100, 0.070, 0.265, 0.010, 0.290},
	} {
		p := b.all(leg...)
		f.leg(in.Legs, thin, p[0], p[1], p[2], p[3])
	}
}
