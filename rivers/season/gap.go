package season

// Two runs of finds in one flight of the account: section 6 of the rules on
// figures. It prompts the editor; it never splits a flight by itself.
//
// A scarce fly is missed for weeks by chance. So the empty visits of a gap are held against the visits of the six weeks
// before it and of the six weeks after it, without the days of the two finds that bound it: had the fly been about in
// the gap as it was there, how likely is it that all finds fall outside? With E empty visits in the gap, and k finds on n
// visits beside it, that is Fisher's exact test, one-sided (Fisher 1935, The Design of Experiments, ch. 2):
//
//	P = C(n,k) / C(n+E,k)
//
// Both sides must give at most 0.1, since a flight that rises and falls once is nowhere between them scarcer than on the
// lesser one. Tried by simulation: of flies with one flight 3 % at most are said to have two (TestGapsOfOneFlight).

import (
	"slices"

	"guidegen/content/calendar"
)

// GapSays is what the visits in a gap between two runs of finds tell.
type GapSays string

// The four answers.
const (
	TwoFlights   GapSays = "two-flights"   // looked for there often enough, and not found
	GapUnvisited GapSays = "nobody-looked" // no visit in the gap: may be one flight or two
	GapThin      GapSays = "too-few"       // some empty visits, but too few to tell
	GapByChance  GapSays = "by-chance"     // so scarce beside the gap that chance may have made it
)

// gapChance is the largest P at which the visits of a gap show two flights; our judgement.
const gapChance = 0.1

// Gap is a long stretch without a find, within one flight of the account.
type Gap struct {
	After, Before calendar.Day // the finds on either side, years pooled
	Days          int          // from After to Before
	Empty         int          // visits between them that looked for the fly and found none
	Says          GapSays
}

// Gaps returns the stretches of at least six weeks between finds of flight k.
func Gaps(visits []Visit, flights []Moved, k int, c Constants) []Gap {
	order := ordering(flights[k], c)
	var places []int
	for _, v := range inFlight(visits, flights, k, c) {
		places = append(places, order(v.day()))
	}
	slices.Sort(places)
	var empty []int
	for _, v := range visits {
		if !v.Found && !v.Date.IsZero() {
			empty = append(empty, order(v.day()))
		}
	}
	// beside is P of the visits from place a to place b, held against so many empty ones.
	beside := func(a, b, gap int) float64 {
		within := func(places []int) (n int) {
			for _, x := range places {
				if x >= a && x <= b {
					n++
				}
			}
			return n
		}
		k := within(places)
		return allOutside(k, k+within(empty), gap)
	}
	start := flights[k].From.Add(-order(flights[k].From))
	var out []Gap
	for i := 1; i < len(places); i++ {
		a, b := places[i-1], places[i]
		if b-a < int(c.GapDays) {
			continue
		}
		g := Gap{After: start.Add(a), Before: start.Add(b), Days: b - a, Says: GapThin}
		for _, e := range empty {
			if e > a && e < b {
				g.Empty++
			}
		}
		switch {
		case g.Empty == 0:
			g.Says = GapUnvisited
		case g.Empty < int(c.GapVisits):
		case max(beside(a-int(c.GapDays), a-1, g.Empty), beside(b+1, b+int(c.GapDays), g.Empty)) <= gapChance:
			g.Says = TwoFlights
		default:
			g.Says = GapByChance
		}
		out = append(out, g)
	}
	return out
}

// allOutside is the chance that all k finds fall on n visits and none on so many more: C(n,k) / C(n+more,k).
func allOutside(k, n, more int) float64 {
	p := 1.0
	for i := range k {
		p *= float64(n-i) / float64(n+more-i)
	}
	return round9(p)
}
