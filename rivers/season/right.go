package season

// How right was this guide: section 16 of the rules on figures. Each year is
// left out in turn and what the rest would have said is held against it.

import (
	"maps"
	"slices"

	"guidegen/content/calendar"
)

// Tried is one fly on the water: what Reckon takes.
type Tried struct {
	P     *Curve
	Own   []Visit
	Lent  []Lent
	Trust float64 // m of the row; 0: the guide's most
}

// Band is one row of the table: chances said, and what was found.
type Band struct {
	From, Below float64 // chance said; the last band holds 1
	N, Found    int
}

// Right is the outcome over all flies of a water.
type Right struct {
	Tell  bool // false: fewer than three years of visits
	Years int
	N     int // a visit counts once for every fly it looked for
	Bands [4]Band
	// Brier is the mean of (chance - found)², 0 at best; Account is the same
	// for the account alone. Brier 1950, Mon. Weather Rev. 78:1.
	Brier, Account float64
}

// HowRight leaves each season out, own visits and lent ones alike, and judges every own visit of that
// season, held ones too. It takes three calendar years of visits on the water to tell.
func HowRight(flies []Tried, c Constants) Right {
	r := Right{Bands: [4]Band{{From: 0, Below: 0.1}, {From: 0.1, Below: 0.3}, {From: 0.3, Below: 0.6}, {From: 0.6, Below: 1}}}
	years := visitYears(flies)
	r.Years = len(years)
	if r.Years < 3 {
		return r
	}
	r.Tell = true
	for _, f := range flies {
		k := c
		if f.Trust > 0 {
			k.Trust = f.Trust
		}
		for _, y := range seasonsOf(f.Own) {
			r.judge(f, y, k)
		}
	}
	if r.N > 0 {
		r.Brier /= float64(r.N)
		r.Account /= float64(r.N)
	}
	return r
}

// judge adds the visits of one season. Visits are taken by day so that their
// order is of no matter.
func (r *Right) judge(f Tried, year int, c Constants) {
	var n, found [calendar.Year]int
	any := false
	for _, v := range f.Own {
		if v.Date.IsZero() || v.season() != year {
			continue
		}
		any = true
		n[v.day()-1]++
		if v.Found {
			found[v.day()-1]++
		}
	}
	if !any {
		return
	}
	e := gather(f.Own, f.Lent, year, c)
	for i := range n {
		if n[i] == 0 {
			continue
		}
		p := f.P[i]
		chance := e.on(i, p).chance
		hit, miss := float64(found[i]), float64(n[i]-found[i])
		r.Brier += float64(hit*(1-chance)*(1-chance)) + float64(miss*chance*chance)
		r.Account += float64(hit*(1-p)*(1-p)) + float64(miss*p*p)
		r.N += n[i]
		b := r.band(chance)
		b.N += n[i]
		b.Found += found[i]
	}
}

func (r *Right) band(chance float64) *Band {
	chance = round9(chance)
	for i := range r.Bands[:3] {
		if chance < r.Bands[i].Below {
			return &r.Bands[i]
		}
	}
	return &r.Bands[3]
}

func seasonsOf(own []Visit) []int {
	var out []int
	for _, v := range own {
		if !v.Date.IsZero() && !slices.Contains(out, v.season()) {
			out = append(out, v.season())
		}
	}
	slices.Sort(out)
	return out
}

func visitYears(flies []Tried) []int {
	seen := map[int]bool{}
	for _, f := range flies {
		for _, v := range f.Own {
			if !v.Date.IsZero() {
				seen[v.Date.Year] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(seen))
}
