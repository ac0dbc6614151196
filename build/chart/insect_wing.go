package chart

// Wings that stand or lie with their surface to the eye: outline, tint, veins.

// foreWingOutline runs along the front edge to the tip (1, 0.09) and back by the
// outer and hind edge.
func foreWingOutline(w frame) curve {
	return through(true, w.all(0, 0, 0.12, -0.030, 0.35, -0.046, 0.62, -0.040, 0.84, 0.000, 0.966, 0.048, 1, 0.098,
		0.966, 0.164, 0.870, 0.262, 0.715, 0.366, 0.550, 0.424, 0.400, 0.416, 0.255, 0.330, 0.120, 0.180, 0.020, 0.060)...)
}

// foreWing draws an upwinged fly's near fore wing.
func (f *figure) foreWing(in Insect, w frame, known bool) {
	if in.Wing == "" {
		f.lacks(PartWing)
	}
	f.add(f.tint(in, shape{curve: foreWingOutline(w), width: f.line(), dashed: !known}))
	if !f.detail {
		return
	}
	// front edge: three veins side by side
	f.vein(through(false, w.all(0.02, 0.004, 0.30, -0.020, 0.62, -0.012, 0.90, 0.048)...), 1)
	f.vein(through(false, w.all(0.03, 0.014, 0.32, 0.006, 0.64, 0.022, 0.93, 0.092)...), 1)
	// the fan: from the root to the outer edge, curving with the wing
	margin := through(false, w.all(0.985, 0.135, 0.920, 0.216, 0.800, 0.314, 0.650, 0.396, 0.480, 0.424, 0.330, 0.378, 0.205, 0.280)...)
	var fan []curve
	for i := range 8 {
		t := (float64(i) + 0.25) / 7.6
		end := margin.at(t)
		mid := mix(w.at(0.04, 0.028), end, 0.5).plus(w.v.times(-0.045 * (1 - 0.8*t)))
		c := through(false, w.at(0.04, 0.028), mid, end)
		fan = append(fan, c)
		f.vein(c, 0.75)
	}
	// cross veins between neighbours, and short veins at the edge
	for i := range len(fan) - 1 {
		for _, t := range []float64{0.46, 0.64, 0.82} {
			t += 0.05 * float64(i%2)
			if i < 6 {
				f.vein(line(fan[i].at(t), fan[i+1].at(t-0.015)), 0.5)
			}
		}
		between := margin.at((float64(i) + 0.75) / 7.6)
		inner := mix(fan[i].at(0.86), fan[i+1].at(0.86), 0.5)
		f.vein(line(inner, between), 0.5)
	}
	if in.ForeWing == ForeWingClouded { // a dun's wing has a fringe
		for i := range 22 {
			t := (float64(i) + 0.5) / 22
			p, n := margin.at(t), margin.normal(t)
			f.vein(line(p, p.plus(n.times(-0.016*w.u.length()*side(margin, w)))), 0.45)
		}
	}
}

// side is -1 or 1 so that a normal points away from the wing's root.
func side(margin curve, w frame) float64 {
	p, n := margin.at(0.5), margin.normal(0.5)
	if p.plus(n).minus(w.origin).length() > p.minus(n).minus(w.origin).length() {
		return -1
	}
	return 1
}

func (f *figure) vein(c curve, width float64) {
	f.add(shape{curve: c, width: f.line() * 0.6 * width, faint: true})
}

// tint fills a wing by what is known of it: a clouded wing strongly, a clear one
// hardly, an unknown one not at all.
func (f *figure) tint(in Insect, s shape) shape {
	switch in.ForeWing {
	case ForeWingClouded:
		s.fill, s.opacity = in.Wing, 0.82
		if in.Wing == "" {
			s.fill, s.opacity = cloud, 0
		}
	case ForeWingClear:
		s.fill, s.opacity = in.Wing, 0.2
		if in.Wing == "" {
			s.fill, s.opacity = blank, 0.35
		}
	default:
		f.lacks(PartForeWing)
	}
	return s
}

func (f *figure) hindWing(in Insect, root pt, fore float64) {
	switch in.HindWing {
	case HindWingTiny:
		w := wingFrame(root, fore*0.17, 40)
		f.add(f.tint(in, shape{curve: through(true, w.all(0, 0, 0.3, -0.13, 0.75, -0.14, 1, 0.06, 0.85, 0.26, 0.45, 0.28, 0.1, 0.12)...), width: f.line() * 0.9}))
		if f.detail {
			f.vein(through(false, w.all(0.05, 0.02, 0.5, -0.02, 0.92, 0.08)...), 0.7)
			f.vein(through(false, w.all(0.05, 0.04, 0.45, 0.10, 0.80, 0.20)...), 0.7)
		}
	case HindWingLarge:
		w := wingFrame(root, fore*0.44, 33)
		f.add(f.tint(in, shape{curve: through(true, w.all(0, 0, 0.25, -0.14, 0.60, -0.15, 0.92, -0.02, 1, 0.14, 0.88, 0.40, 0.58, 0.56, 0.28, 0.46, 0.06, 0.16)...), width: f.line() * 0.9}))
		if f.detail {
			margin := through(false, w.all(0.99, 0.10, 0.93, 0.32, 0.75, 0.50, 0.50, 0.54, 0.28, 0.44)...)
			for i := range 5 {
				end := margin.at((float64(i) + 0.3) / 5)
				f.vein(through(false, w.at(0.04, 0.03), mix(w.at(0.04, 0.03), end, 0.5).plus(w.v.times(-0.04)), end), 0.7)
			}
		}
	case HindWingUnknown:
		f.lacks(PartHindWing)
	}
}
