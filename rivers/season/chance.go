package season

// The chance that a standard visit finds a fly on a day: section 5 of the rules
// on figures. The account weighs as m visits; own and lent visits are weighted
// by their distance in days, and no season says more than n_y visits.

import (
	"cmp"
	"math"
	"slices"

	"guidegen/content/calendar"
)

// Chances is what the guide says of one fly on one water, day by day.
type Chances struct {
	Chance  Curve   // α / (α + β)
	Own     Curve   // own visits' part of α + β
	Lent    Curve   // lent visits' part of α + β
	Account float64 // the account's part of α + β on every day: m
	Months  [12]Month
}

// Weight returns α + β on a day.
func (c *Chances) Weight(d calendar.Day) float64 {
	return c.Account + c.Own.At(d) + c.Lent.At(d)
}

// Reckon returns the chances of a fly on a water. p is Expected, or Flat for a
// fly that is found but not listed (with nothing lent). The order of visits is
// of no matter, to the last bit. Held visits enter the months' counts only.
func Reckon(p *Curve, own []Visit, lent []Lent, c Constants) *Chances {
	e := gather(own, lent, 0, c)
	out := &Chances{Account: c.Trust}
	for i := range p {
		s := e.on(i, p[i])
		out.Chance[i], out.Own[i], out.Lent[i] = s.chance, s.own, s.lent
	}
	out.months(own, c)
	return out
}

// Hold returns the visits with Held set where a find waits for a reviewer: it
// rests on unreviewed records alone, lies outside every flight, and no other
// visit, of another day or recorder, within 14 days in the same season found the fly;
// strays are the dates of finds outside a visit's scope, which speak for it too. flights are those of the water (for a fly
// not listed there, the account's as they would be moved); with none, every
// find is outside. Where none waits, it returns the visits as they are.
func Hold(visits []Visit, strays []calendar.Date, flights []Moved, c Constants) []Visit {
	const near = 14
	out, cloned := visits, false
	for i, v := range visits {
		if v.Date.IsZero() || !v.Found || !v.Unreviewed || Assign(v.day(), flights, c) >= 0 ||
			slices.ContainsFunc(finds(visits, i), func(o Visit) bool { return o.season() == v.season() && abs(o.Date.Sub(v.Date)) <= near }) ||
			slices.ContainsFunc(strays, func(d calendar.Date) bool { return abs(d.Sub(v.Date)) <= near }) {
			continue
		}
		if !cloned {
			out, cloned = slices.Clone(visits), true
		}
		out[i].Held = true
	}
	return out
}

// finds returns the visits that found the fly, without the one at skip.
func finds(visits []Visit, skip int) []Visit {
	var out []Visit
	for i, v := range visits {
		if i != skip && v.Found && !v.Date.IsZero() {
			out = append(out, v)
		}
	}
	return out
}

// kernel is w for δ = -364 … 364 at index δ + 364, so that no index is taken
// modulo the year: w(δ) = exp(κ (cos(2πδ/365) - 1)), κ = (365 / (2π h))².
type kernel [2*calendar.Year - 1]float64

func newKernel(h float64) *kernel {
	kappa := calendar.Year / (2 * math.Pi * h)
	kappa *= kappa
	var w kernel
	for n := range calendar.Year {
		v := math.Exp(kappa * (math.Cos(2*math.Pi*float64(n)/calendar.Year) - 1))
		w[calendar.Year-1+n], w[calendar.Year-1-n] = v, v
	}
	return &w
}

// tally is the visits of one day: found, and looked for without a find, each in
// visits' worth.
type tally struct {
	day           int // 0 … 364
	found, missed float64
}

// evidence is visits sorted out for evaluation on any day.
type evidence struct {
	w      *kernel
	years  [][]tally // own visits by season, days in order
	names  []int     // the seasons, in order
	lent   []tally   // days in order
	trust  float64   // m
	capped float64   // n_y
	weight float64   // q
}

// entry is one visit reduced to what the sums need.
type entry struct {
	season, day int
	found       bool
	worth       float64
}

// entries reduces the visits that count, without those of the season skip, in an order of their own.
func entries(own []Visit, skip int) []entry {
	in := make([]entry, 0, len(own))
	for _, v := range own {
		if v.Held || v.Date.IsZero() || skip != 0 && v.season() == skip {
			continue
		}
		in = append(in, entry{v.season(), int(v.day()) - 1, v.Found, v.worth()})
	}
	slices.SortFunc(in, func(a, b entry) int {
		return cmp.Or(a.season-b.season, a.day-b.day, cmp.Compare(a.worth, b.worth))
	})
	return in
}

// gather leaves out the visits of the season skip, own and lent alike; 0 leaves out none.
func gather(own []Visit, lent []Lent, skip int, c Constants) *evidence {
	e := &evidence{w: newKernel(c.Bandwidth), trust: c.Trust, capped: c.YearVisits, weight: c.LentWeight}
	in := entries(own, skip)
	for i, v := range in {
		if i == 0 || v.season != in[i-1].season {
			e.years, e.names = append(e.years, nil), append(e.names, v.season)
		}
		year := &e.years[len(e.years)-1]
		*year = count(*year, v)
	}
	e.gatherLent(lent, skip)
	return e
}

func count(days []tally, v entry) []tally {
	if n := len(days); n == 0 || days[n-1].day != v.day {
		days = append(days, tally{day: v.day})
	}
	t := &days[len(days)-1]
	if v.found {
		t.found++
	} else {
		t.missed += v.worth
	}
	return days
}

// gatherLent pools the years, since no year is capped here. Whole visits are
// counted and only the parts of one are sorted: there may be very many.
func (e *evidence) gatherLent(lent []Lent, skip int) {
	var days [calendar.Year]tally
	var seen [calendar.Year]bool
	var parts []entry
	for _, v := range lent {
		if skip != 0 && v.Season == skip {
			continue
		}
		d := int(v.Day) - 1
		seen[d] = true
		switch {
		case v.Found:
			days[d].found++
		case v.Worth == 1:
			days[d].missed++
		default:
			parts = append(parts, entry{day: d, worth: v.Worth})
		}
	}
	slices.SortFunc(parts, func(a, b entry) int { return cmp.Or(a.day-b.day, cmp.Compare(a.worth, b.worth)) })
	for _, v := range parts {
		days[v.day].missed += v.worth
	}
	for d := range days {
		if seen[d] {
			days[d].day = d
			e.lent = append(e.lent, days[d])
		}
	}
}

// said is the outcome on one day.
type said struct{ chance, own, lent float64 }

// on reckons day i (0 … 364) with p from the account.
func (e *evidence) on(i int, p float64) said {
	var found, own float64
	for _, days := range e.years {
		var f, s, top float64
		for _, t := range days {
			w := e.w[t.day-i+calendar.Year-1]
			f += float64(w * t.found)
			s += float64(w * (t.found + t.missed))
			top = max(top, w)
		}
		if most := e.capped * top; s > most {
			f, s = f*(most/s), most
		}
		found += f
		own += s
	}
	var lentFound, lent float64
	for _, t := range e.lent {
		w := e.w[t.day-i+calendar.Year-1]
		lentFound += float64(w * t.found)
		lent += float64(w * (t.found + t.missed))
	}
	q := e.weight
	if lent*q > e.trust {
		q = e.trust / lent
	}
	lentFound, lent = q*lentFound, q*lent

	total := e.trust + own + lent
	if own == 0 && lent == 0 || total == 0 {
		return said{chance: p} // exactly the account
	}
	alpha := float64(e.trust*p) + found + lentFound
	return said{min(1, max(0, alpha/total)), own, lent}
}
