package season

// What the account is worth in visits, measured once for a guide: section 5 of the rules on figures.

import (
	"math"
	"slices"

	"guidegen/content/calendar"
)

// Spread gathers, over rows of listed flies and months, how far visits lie from what the accounts say:
// the moments of a beta-binomial. The zero Spread has seen nothing.
type Spread struct {
	Over   float64 // Σ ((k - s)² - v)
	Within float64 // Σ (U - 1) v
}

// Add takes one row: the softened curve of a listed fly and the water's own visits that count. Rows of which
// a flight lies further off than the rule reaches are left out by the caller (Far).
func (t *Spread) Add(p *Curve, own []Visit) {
	type sums struct{ u, k, s, v float64 }
	var months [12]sums
	var days [calendar.Year]struct{ found, missed float64 } // the order of visits is of no matter
	for _, e := range entries(own, 0) {
		if e.found {
			days[e.day].found++
		} else {
			days[e.day].missed += e.worth
		}
	}
	for i, d := range days {
		u := d.found + d.missed
		if u == 0 {
			continue
		}
		m := &months[calendar.Day(i+1).Month()-1]
		m.u += u
		m.k += d.found
		m.s += float64(u * p[i])
		m.v += float64(u * p[i] * (1 - p[i]))
	}
	for _, m := range months {
		if round9(m.u) < 2 {
			continue
		}
		t.Over += float64((m.k-m.s)*(m.k-m.s)) - m.v
		t.Within += float64((m.u - 1) * m.v)
	}
}

// Plus joins two guides' halves.
func (t Spread) Plus(o Spread) Spread { return Spread{t.Over + o.Over, t.Within + o.Within} }

// Trust is m, the account's worth in visits: never above the guide's trust (3), nor below the least (1),
// near the first while there are few records. Moment estimate of a beta-binomial's spread:
//
//	ρ = (Over + 50/(1+m†)) / (Within + 50),  m = min(m†, max(1, 1/ρ - 1));  ρ ≤ 0: m†
func (t Spread) Trust(c Constants) float64 {
	rho := (t.Over + c.TrustPrior/(1+c.Trust)) / (t.Within + c.TrustPrior)
	if !(rho > 0) || math.IsInf(rho, 0) {
		return c.Trust
	}
	return min(c.Trust, max(c.LeastTrust, 1/rho-1))
}

// Far reports whether a flight lies further from the reference than the rule reaches: its move, before the
// limit, is longer than the largest.
func Far(flights []Moved) bool {
	return slices.ContainsFunc(flights, func(f Moved) bool { return f.Shift.Limited })
}

// ForRow gives the constants of one listed fly's row: m as measured, and for a row that is Far a date
// uncertain by weeks and an account worth one visit at most.
func (c Constants) ForRow(flights []Moved, m float64) Constants {
	c.Trust = m
	if Far(flights) {
		c.Trust, c.Softening = min(m, c.LeastTrust), c.FarSoftening
	}
	return c
}
