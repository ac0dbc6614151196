package season

// Comparing one flight on two waters: section 6 of the rules on figures. Years
// differ by weeks, so only years sampled on both waters are compared.

import (
	"slices"

	"guidegen/content/calendar"
)

// YearPair is one year's middle dates on two waters.
type YearPair struct {
	Year int
	A, B calendar.Day
	Days int // from A to B, the short way round: positive where B is later
}

// Comparison is what shared years say.
type Comparison struct {
	Years   []YearPair // in order
	LeftOut []int      // years visited on either water and not compared, in order
	Median  Known      // of the differences, in days; positive where B is later
}

// Compare takes the same flight on two waters. Each water is reckoned with its
// own protocol of most finds; a year needs as many finds by it as a middle date does.
func Compare(aVisits, bVisits []Visit, aFlights, bFlights []Moved, k int, c Constants) Comparison {
	a, aYears := middles(aVisits, aFlights, k, c)
	b, bYears := middles(bVisits, bFlights, k, c)
	years := append(aYears, bYears...)
	slices.Sort(years)
	var out Comparison
	var diffs []int
	for _, y := range slices.Compact(years) {
		da, db := a[y], b[y]
		if da == 0 || db == 0 {
			out.LeftOut = append(out.LeftOut, y)
			continue
		}
		n := calendar.Gap(da, db)
		diffs = append(diffs, n)
		out.Years = append(out.Years, YearPair{y, da, db, n})
	}
	if n := len(diffs); n > 0 {
		slices.Sort(diffs)
		out.Median = Is(float64(diffs[(n-1)/2]+diffs[n/2]) / 2)
	}
	return out
}

// middles is p50 year by year, each from that year's visits alone, and the
// years in which the fly was looked for.
func middles(visits []Visit, flights []Moved, k int, c Constants) (map[int]calendar.Day, []int) {
	protocol := commonest(inFlight(visits, flights, k, c))
	byYear := map[int][]Visit{}
	var years []int
	for _, v := range visits {
		if v.Date.IsZero() {
			continue
		}
		if byYear[v.Date.Year] == nil {
			years = append(years, v.Date.Year)
		}
		byYear[v.Date.Year] = append(byYear[v.Date.Year], v)
	}
	out := map[int]calendar.Day{}
	for y, vs := range byYear {
		w := weigh(inFlight(vs, flights, k, c), vs, protocol, ordering(flights[k], c))
		if len(w) >= int(c.MedianVisits) {
			out[y] = reach(w, 0.5)
		}
	}
	return out, years
}
