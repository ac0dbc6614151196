package season

// What may be said of days before anything is advised: a stray find is a mark on a page and no more, and the word of a
// day doesn't contradict the flight that the page prints beside it. Common practice, no source.

import "guidegen/content/calendar"

// OnDays reports the days on which a fly is on by its chance alone; index 0 is 1 January.
func OnDays(chance *Curve, c Constants) (on [calendar.Year]bool) {
	half := round9(chance.Largest() / 2)
	for i, v := range chance {
		v = round9(v)
		on[i] = v >= c.OnNow || v >= c.OnScarce && v >= half
	}
	return on
}

// AtLeast reports the days with a chance of p or more.
func (c *Curve) AtLeast(p float64) (on [calendar.Year]bool) {
	for i, v := range c {
		on[i] = round9(v) >= p
	}
	return on
}

// Stretch is a run of days round the circle of the year.
type Stretch struct{ From, To calendar.Day }

// stretches are the runs of days that hold, by their first days; all the year is one from 1 January.
func stretches(on *[calendar.Year]bool) []Stretch {
	var out []Stretch
	for i := range on {
		d := calendar.Day(i + 1)
		if !on[i] || on[d.Add(-1)-1] {
			continue
		}
		to := d
		for on[to.Add(1)-1] {
			to = to.Add(1)
		}
		out = append(out, Stretch{d, to})
	}
	if out == nil && on[0] {
		out = []Stretch{{1, calendar.Year}}
	}
	return out
}

// LeastFinds is how many visits have to find a fly outside its flights before the guide says more than that it was found.
const LeastFinds = 2

// Borne keeps of the days on which a fly would be on those runs that touch one of its flights, or that finds of two visits
// bear out: in the run or a bandwidth from it. A single find outside every flight, and a bump left by a dip in
// the chance, is neither on nor to come. Coming are the flights that such a run touches and the runs that finds alone bear.
func Borne(on [calendar.Year]bool, flights []Moved, finds []calendar.Day, c Constants) (borne [calendar.Year]bool, coming []Stretch) {
	touched := make([]bool, len(flights))
	var alone []Stretch
	for _, s := range stretches(&on) {
		keep := false
		for k, f := range flights {
			if calendar.Within(f.From, s.From, s.To) || calendar.Within(s.From, f.From, f.To) {
				keep, touched[k] = true, true
			}
		}
		n, reach := 0, int(c.Bandwidth)
		for _, d := range finds {
			if calendar.Fwd(s.From, s.To)+2*reach >= calendar.Year || calendar.Within(d, s.From.Add(-reach), s.To.Add(reach)) {
				n++
			}
		}
		switch {
		case keep:
		case n >= LeastFinds:
			alone = append(alone, s)
		default:
			continue
		}
		for d := s.From; ; d = d.Add(1) {
			borne[d-1] = true
			if d == s.To {
				break
			}
		}
	}
	for k, f := range flights {
		if touched[k] {
			coming = append(coming, Stretch{f.From, f.To})
		}
	}
	return borne, append(coming, alone...)
}

// Agreed takes back a word that contradicts a middle printed beside it, of the account's flight or of the records: no fly
// builds up after its middle or tails off before it. Middles of 0 are not known.
func Agreed(w Word, d calendar.Day, middles ...calendar.Day) Word {
	for _, m := range middles {
		if m == 0 || m == d {
			continue
		}
		after := calendar.Gap(m, d) > 0
		if w == Rising && after || w == Fading && !after {
			return NoWord
		}
	}
	return w
}
