package season

// Two runs of finds in one flight of the account: section 6 of the rules on
// figures. It prompts the editor; it never splits a flight by itself.

import (
	"slices"

	"guidegen/content/calendar"
)

// GapSays is what the visits in a gap between two runs of finds tell.
type GapSays string

// The three answers.
const (
	TwoFlights   GapSays = "two-flights"   // looked for there often enough, and not found
	GapUnvisited GapSays = "nobody-looked" // no visit in the gap: may be one flight or two
	GapThin      GapSays = "too-few"       // some empty visits, but too few to tell
)

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
		case g.Empty >= int(c.GapVisits):
			g.Says = TwoFlights
		case g.Empty == 0:
			g.Says = GapUnvisited
		}
		out = append(out, g)
	}
	return out
}
