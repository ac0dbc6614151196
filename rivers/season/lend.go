package season

// Which visits on other waters are lent, and where they land: section 5 of the
// rules on figures.

import "guidegen/content/calendar"

// Lent is a visit on another water, moved to this one.
type Lent struct {
	Day    calendar.Day // on this water
	Year   int          // of the visit itself
	Season int          // of the visit itself, in the fly's year there
	Found  bool
	Worth  float64 // e: 1 if found, else at most 1
	Visit  int     // its place among the lender's visits
	Flight int     // the flight by which it was moved
}

// Lend appends to dst the visits of one other water that count here. The fly is
// listed on both waters and there holds its flights in the account's order, the
// same on both. Each visit is moved by the difference of the two shifts of the
// flight whose moved peak there is nearest to it (a tie: the first), and is lent
// if it lies near enough to that flight there and the flight's classes on the
// two waters are at most one step apart. A class that isn't given lends nothing.
func Lend(dst []Lent, here, there []Moved, visits []Visit, c Constants) []Lent {
	if len(there) == 0 || len(here) != len(there) {
		return dst
	}
	var route [calendar.Year]int // day there → flight, or -1
	for i := range route {
		route[i] = lendingFlight(calendar.Day(i+1), here, there, c)
	}
	for i, v := range visits {
		if v.Held || v.Date.IsZero() {
			continue
		}
		d := v.day()
		k := route[d-1]
		if k < 0 {
			continue
		}
		dst = append(dst, Lent{
			Day:  d.Add(here[k].Shift.Days - there[k].Shift.Days),
			Year: v.Date.Year, Season: v.season(), Found: v.Found, Worth: v.worth(), Visit: i, Flight: k,
		})
	}
	return dst
}

func lendingFlight(d calendar.Day, here, there []Moved, c Constants) int {
	k := 0
	for j := range there {
		if abs(calendar.Gap(there[j].Peak, d)) < abs(calendar.Gap(there[k].Peak, d)) {
			k = j
		}
	}
	a, b := here[k].Class, there[k].Class
	if a == NoClass || b == NoClass || abs(int(a-b)) > 1 {
		return -1
	}
	if apart(d, there[k].From, there[k].To) > int(c.LendWithin) {
		return -1
	}
	return k
}
