package season

// Comparing one flight on two waters: section 6 of the rules on figures. Seasons differ by weeks, so only
// seasons with finds on both waters are compared.

import (
	"math"
	"slices"

	"guidegen/content/calendar"
)

// SeasonPair is one season's middle dates on two waters.
type SeasonPair struct {
	Season int
	A, B   calendar.Day
	Days   int // from A to B, the short way round: positive where B is later
}

// Comparison is what shared seasons say.
type Comparison struct {
	Protocol   string       // the one used on both; "" where the waters have none in common
	Seasons    []SeasonPair // in order
	LeftOut    []int        // seasons visited on either water and not compared, in order
	Median     Known        // of the differences, in whole days; positive where B is later
	GiveOrTake int          // days, beside Median
}

// Compare takes the same flight on two waters. Both have to be reckoned by the same protocol, that of most
// finds; a season needs as many finds by it as a middle date does, and no gap of six weeks between them.
func Compare(aVisits, bVisits []Visit, aFlights, bFlights []Moved, k int, c Constants) Comparison {
	var out Comparison
	p := commonest(inFlight(aVisits, aFlights, k, c))
	if p == "" || p != commonest(inFlight(bVisits, bFlights, k, c)) {
		return out
	}
	out.Protocol = p
	a, aSeasons := middles(aVisits, aFlights, k, p, c)
	b, bSeasons := middles(bVisits, bFlights, k, p, c)
	seasons := append(aSeasons, bSeasons...)
	slices.Sort(seasons)
	var diffs []int
	variance := 0.0
	for _, y := range slices.Compact(seasons) {
		da, okA := a[y]
		db, okB := b[y]
		if !okA || !okB {
			out.LeftOut = append(out.LeftOut, y)
			continue
		}
		n := calendar.Gap(da.day, db.day)
		diffs = append(diffs, n)
		variance += da.variance + db.variance
		out.Seasons = append(out.Seasons, SeasonPair{y, da.day, db.day, n})
	}
	if n := len(diffs); n > 0 {
		slices.Sort(diffs)
		out.Median = Is(math.Round(float64(diffs[(n-1)/2]+diffs[n/2]) / 2)) // halves away from zero
		out.GiveOrTake = int(math.Ceil(round9(c.DateSpread * math.Sqrt(variance) / float64(n))))
	}
	return out
}

type middle struct {
	day      calendar.Day
	variance float64
}

// SeasonMiddle is the middle date of one season's finds.
type SeasonMiddle struct {
	Season     int
	Day        calendar.Day
	GiveOrTake int // days: of the season's own finds; that seasons differ is no part of it
}

// BySeason gives a flight's middle dates season by season, in order, by the protocol of most finds; a season needs
// what one in Compare needs.
func BySeason(visits []Visit, flights []Moved, k int, c Constants) []SeasonMiddle {
	p := commonest(inFlight(visits, flights, k, c))
	if p == "" {
		return nil
	}
	all, seasons := middles(visits, flights, k, p, c)
	slices.Sort(seasons)
	var out []SeasonMiddle
	for _, y := range seasons {
		if m, ok := all[y]; ok {
			out = append(out, SeasonMiddle{y, m.day, int(math.Ceil(round9(c.DateSpread * math.Sqrt(m.variance))))})
		}
	}
	return out
}

// middles is the middle date season by season, each from that season's visits alone, and the seasons in
// which the fly was looked for.
func middles(visits []Visit, flights []Moved, k int, protocol string, c Constants) (map[int]middle, []int) {
	bySeason := map[int][]Visit{}
	var seasons []int
	for _, v := range visits {
		if v.Date.IsZero() {
			continue
		}
		if bySeason[v.season()] == nil {
			seasons = append(seasons, v.season())
		}
		bySeason[v.season()] = append(bySeason[v.season()], v)
	}
	order := ordering(flights[k], c)
	out := map[int]middle{}
	for y, vs := range bySeason {
		w := weigh(inFlight(vs, flights, k, c), vs, protocol, order, c)
		if len(w.finds) >= int(c.MedianVisits) && w.torn(c) == 0 {
			day := flights[k].From.Add(int(math.Floor(round9(w.at(0.5)+0.5))) - order(flights[k].From))
			out[y] = middle{day, w.variance(flights[k].Dates, c)}
		}
	}
	return out, seasons
}
