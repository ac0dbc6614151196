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

// FlightOn returns the place of the flight that speaks for a day: the one a record of that day belongs to, however
// far off; -1 where there is none.
func FlightOn(d calendar.Day, flights []Moved) int {
	return Assign(d, flights, Constants{AssignWithin: calendar.Year})
}

// FlightDates is what the records say of one flight on a water.
type FlightDates struct {
	Protocol      string       // the one used; "" where no find has a known effort
	Visits        int          // visits by it that found the fly in this flight
	Seasons       []int        // of those visits, in order
	P10, P50, P90 calendar.Day // 0 where there is too little for them
	GiveOrTake    int          // days, beside P50
	// TornDays is the longest stretch between neighbouring finds by the protocol, where it is six weeks or
	// more: nothing is pooled over it. Else 0.
	TornDays int
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
	w := weigh(mine, visits, out.Protocol, order, c)
	out.Visits, out.Seasons, out.TornDays = len(w.finds), w.seasons(), w.torn(c)
	if out.Visits < int(c.MedianVisits) || len(out.Seasons) < int(c.MedianYears) || out.TornDays > 0 {
		return out
	}
	day := func(q float64) calendar.Day {
		return flights[k].From.Add(int(math.Floor(round9(w.at(q)+0.5))) - order(flights[k].From))
	}
	out.P50, out.GiveOrTake = day(0.5), giveOrTake(w.variance(flights[k].Dates, c), w.evenSeasons(), c)
	if out.Visits > int(c.SpreadVisits) {
		out.P10, out.P90 = day(0.1), day(0.9)
	}
	return out
}

// giveOrTake is N = ⌈1.28 √(v + 49/Y)⌉ days: by how much a middle date may be off in eight cases of ten, 1.28 standard
// errors of a normal distribution. v is the variance of the date within the seasons seen, Y the number of seasons that
// say as much if all said alike; seasons differ by 7 days. Tried by simulation, TestMiddleDatesHold.
func giveOrTake(v, seasons float64, c Constants) int {
	return int(math.Ceil(round9(c.DateSpread * math.Sqrt(v+c.YearSpread/seasons))))
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

// weighed is the finds of one flight by one protocol, each with its weight, in the flight's order.
type weighed struct {
	finds []find
	total float64
}

type find struct {
	place  int // days from the start of the flight's order
	season int
	weight float64
}

// weigh gives each find by the protocol its weight: log₂(1 + catch rate) over the visits by that protocol
// around its day, of all seasons, the empty ones and itself too, each by its nearness (w of section 5).
func weigh(finds, visits []Visit, protocol string, order func(calendar.Day) int, c Constants) weighed {
	w := newKernel(c.Bandwidth)
	var looked [calendar.Year]float64
	for _, v := range visits {
		if !v.Date.IsZero() && v.Protocol == protocol && measured(v) {
			looked[v.day()-1]++
		}
	}
	var out weighed
	for _, v := range finds {
		if v.Protocol != protocol || !measured(v) {
			continue
		}
		near := 0.0
		for j, n := range looked {
			near += float64(n * w[j-int(v.day()-1)+calendar.Year-1])
		}
		rate := v.Count / v.Effort.Value
		out.finds = append(out.finds, find{order(v.day()), v.season(), math.Log2(1+rate) / near})
	}
	slices.SortFunc(out.finds, func(a, b find) int {
		return cmp.Or(a.place-b.place, cmp.Compare(a.weight, b.weight))
	})
	for _, f := range out.finds {
		out.total += f.weight
	}
	return out
}

// at is date(q): the place, in days of the flight's order, at which the share q of all weight is reached.
// Each day holds half its own weight and all that came before; straight lines lie between days.
func (w weighed) at(q float64) float64 {
	goal, before := q*w.total, 0.0
	var lastPlace, lastReached float64
	for i := 0; i < len(w.finds); {
		j, day := i, 0.0
		for ; j < len(w.finds) && w.finds[j].place == w.finds[i].place; j++ {
			day += w.finds[j].weight
		}
		place, reached := float64(w.finds[i].place), before+day/2
		if reached >= goal {
			if i == 0 {
				return place
			}
			return lastPlace + (place-lastPlace)*(goal-lastReached)/(reached-lastReached)
		}
		lastPlace, lastReached = place, reached
		before += day
		i = j
	}
	return lastPlace
}

// variance is v = s²/nₑ of the middle date, nₑ = (Σw)²/Σw². Few finds say little of how far they spread, so s² is that of
// the n finds, (date(0.75) - date(0.25))/1.349, and that of the account as 4 more would give it, a quarter of from–to:
//
//	s² = (n s_finds² + 4 s_account²) / (n + 4)
func (w weighed) variance(d Dates, c Constants) float64 {
	var squares float64
	for _, f := range w.finds {
		squares += float64(f.weight * f.weight)
	}
	n := float64(len(w.finds))
	finds, account := (w.at(0.75)-w.at(0.25))/1.349, float64(calendar.Fwd(d.From, d.To))/4
	s2 := (float64(n*finds*finds) + float64(c.SpreadFinds*account*account)) / (n + c.SpreadFinds)
	return s2 * squares / (w.total * w.total)
}

// evenSeasons is Y = (Σw)²/Σ W², W the weight of each season's finds: two seasons of which one has nearly all the finds
// say little more than one.
func (w weighed) evenSeasons() float64 {
	sums, squares := map[int]float64{}, 0.0
	for _, f := range w.finds {
		sums[f.season] += f.weight
	}
	for _, y := range w.seasons() {
		squares += float64(sums[y] * sums[y])
	}
	return w.total * w.total / squares
}

func (w weighed) seasons() []int {
	var out []int
	for _, f := range w.finds {
		out = append(out, f.season)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// torn is the longest stretch between neighbouring finds if it is six weeks or more, else 0.
func (w weighed) torn(c Constants) int {
	longest := 0
	for i := 1; i < len(w.finds); i++ {
		longest = max(longest, w.finds[i].place-w.finds[i-1].place)
	}
	if longest < int(c.GapDays) {
		return 0
	}
	return longest
}
