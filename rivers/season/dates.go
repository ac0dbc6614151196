package season

// Flight dates from records: section 6 of the rules on figures.

import (
	"cmp"
	"math"
	"slices"

	"guidegen/content/calendar"
)

// Assign returns the place of the flight a record on day d belongs to: the one
// that contains it (of several, the one with the nearer peak), else the one
// whose limit is nearest within the days allowed; a tie goes to the first in
// the account. -1 is outside every flight.
func Assign(d calendar.Day, flights []Moved, c Constants) int {
	inside, beside := -1, -1
	for k, f := range flights {
		switch n := apart(d, f.From, f.To); {
		case n == 0:
			if inside < 0 || abs(calendar.Gap(f.Peak, d)) < abs(calendar.Gap(flights[inside].Peak, d)) {
				inside = k
			}
		case n <= int(c.AssignWithin):
			if beside < 0 || n < apart(d, flights[beside].From, flights[beside].To) {
				beside = k
			}
		}
	}
	if inside >= 0 {
		return inside
	}
	return beside
}

// FlightDates is what the records say of one flight on a water.
type FlightDates struct {
	Protocol      string       // the one used; "" where no find has a known effort
	Visits        int          // visits by it that found the fly in this flight
	Years         int          // calendar years of those visits
	P10, P50, P90 calendar.Day // 0 where there is too little for them
	// First and Last are the finds earliest and latest in the flight, by any
	// protocol, with their years: never the flight's limits.
	First, Last calendar.Date
	Finds       []calendar.Date // every find in the flight, in the flight's order
}

// FromRecords reckons the dates of flight k from the visits on its water.
func FromRecords(visits []Visit, flights []Moved, k int, c Constants) FlightDates {
	order := ordering(flights[k], c)
	mine := inFlight(visits, flights, k, c)
	slices.SortFunc(mine, func(a, b Visit) int {
		return cmp.Or(order(a.day())-order(b.day()), a.Date.Sub(b.Date))
	})
	var out FlightDates
	for _, v := range mine {
		out.Finds = append(out.Finds, v.Date)
	}
	if n := len(mine); n > 0 {
		out.First, out.Last = mine[0].Date, mine[n-1].Date
	}
	out.Protocol = commonest(mine)
	if out.Protocol == "" {
		return out
	}
	w := weigh(mine, visits, out.Protocol, order)
	out.Visits, out.Years = len(w), yearsOf(w)
	if out.Visits < int(c.MedianVisits) || out.Years < int(c.MedianYears) {
		return out
	}
	out.P50 = reach(w, 0.5)
	if out.Visits > int(c.SpreadVisits) {
		out.P10, out.P90 = reach(w, 0.1), reach(w, 0.9)
	}
	return out
}

// ordering places days going forward from 30 days before the flight's start, or
// from further back where a guide lets records belong from further off.
func ordering(f Moved, c Constants) func(calendar.Day) int {
	start := f.From.Add(-max(30, int(c.AssignWithin)))
	return func(d calendar.Day) int { return calendar.Fwd(start, d) }
}

// inFlight returns the visits that found the fly in flight k.
func inFlight(visits []Visit, flights []Moved, k int, c Constants) []Visit {
	var out []Visit
	for _, v := range visits {
		if v.Found && !v.Date.IsZero() && Assign(v.day(), flights, c) == k {
			out = append(out, v)
		}
	}
	return out
}

// measured reports whether a catch rate can be had: a named protocol and an
// effort above nothing.
func measured(v Visit) bool { return v.Protocol != "" && v.Effort.OK && v.Effort.Value > 0 }

// commonest is the protocol of known effort with most finds; a tie goes by name.
func commonest(finds []Visit) string {
	n := map[string]int{}
	best := ""
	for _, v := range finds {
		if measured(v) {
			n[v.Protocol]++
		}
	}
	for p, k := range n {
		if best == "" || k > n[best] || k == n[best] && p < best {
			best = p
		}
	}
	return best
}

type weighed struct {
	place  int // days from the start of the flight's order
	date   calendar.Date
	weight float64
}

// weigh gives each find by the protocol its weight: log₂(1 + catch rate) over
// the visits by that protocol in its cell, of all years, the empty ones too.
func weigh(finds, visits []Visit, protocol string, order func(calendar.Day) int) []weighed {
	var looked [calendar.Cells]int
	for _, v := range visits {
		if !v.Date.IsZero() && v.Protocol == protocol && measured(v) {
			looked[v.day().Cell()]++
		}
	}
	var out []weighed
	for _, v := range finds {
		if v.Protocol == protocol && measured(v) {
			rate := v.Count / v.Effort.Value
			out = append(out, weighed{order(v.day()), v.Date, math.Log2(1+rate) / float64(looked[v.day().Cell()])})
		}
	}
	slices.SortFunc(out, func(a, b weighed) int {
		return cmp.Or(a.place-b.place, a.date.Sub(b.date), cmp.Compare(a.weight, b.weight))
	})
	return out
}

// reach is the first day at which the running weight reaches the share. The
// factor keeps the last bit of a sum from moving a date by one record.
func reach(w []weighed, share float64) calendar.Day {
	var total, sum float64
	for _, v := range w {
		total += v.weight
	}
	for _, v := range w {
		sum += v.weight
		if sum >= share*total*(1-1e-9) {
			return v.date.OfYear()
		}
	}
	return 0
}

func yearsOf(w []weighed) int {
	years := map[int]bool{}
	for _, v := range w {
		years[v.date.Year] = true
	}
	return len(years)
}
