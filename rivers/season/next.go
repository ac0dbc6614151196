package season

// Where one more visit would tell most: section 14 of the rules on figures.

import (
	"slices"
	"time"

	"guidegen/content/calendar"
)

// Narrowed gives, by half-month, the fall in the width of its month's 80 % range if one standard visit were added
// on the half-month's middle day of the year given: the mean of the two widths, with the visit finding the fly and
// not finding it, weighed by the chance on that day. A fall below 0 is a range that would widen. Zero where the
// chance on that day is below the guide's least (NotExpected). x is the first day of the fly's year.
func Narrowed(f Tried, year int, x calendar.Day, c Constants) (fall [calendar.Cells]float64) {
	if f.Trust > 0 {
		c.Trust = f.Trust
	}
	e := gather(f.Own, f.Lent, 0, c)
	for cell := range calendar.Cell(calendar.Cells) {
		middle := cell.Middle()
		chance := e.on(int(middle)-1, f.P.At(middle)).chance
		if round9(chance) < c.NotExpected {
			continue
		}
		add := entry{season: SeasonOf(calendar.Date{Year: year, Month: middle.Month(), Day: middle.DayOfMonth()}, x), day: int(middle) - 1, worth: 1}
		missed := e.with(add).width(cell.Month(), f.P, c)
		add.found = true
		found := e.with(add).width(cell.Month(), f.P, c)
		fall[cell] = e.width(cell.Month(), f.P, c) - (float64(chance*found) + float64((1-chance)*missed))
	}
	return fall
}

// with is the evidence with one own visit more.
func (e *evidence) with(v entry) *evidence {
	out := *e
	out.years, out.names = slices.Clone(e.years), slices.Clone(e.names)
	i, known := slices.BinarySearch(out.names, v.season)
	if !known {
		out.names, out.years = slices.Insert(out.names, i, v.season), slices.Insert(out.years, i, nil)
	}
	days := slices.Clone(out.years[i])
	at, known := slices.BinarySearchFunc(days, v.day, func(t tally, day int) int { return t.day - day })
	if !known {
		days = slices.Insert(days, at, tally{day: v.day})
	}
	if v.found {
		days[at].found++
	} else {
		days[at].missed += v.worth
	}
	out.years[i] = days
	return &out
}

// width is that of a month's 80 % range.
func (e *evidence) width(m time.Month, p *Curve, c Constants) float64 {
	var sum, inverse float64
	first, last := calendar.FirstOf(m), calendar.LastOf(m)
	for d := first; d <= last; d++ {
		s := e.on(int(d)-1, p.At(d))
		sum += s.chance
		inverse += 1 / (e.trust + s.own + s.lent)
	}
	days := float64(last - first + 1)
	low, high := spread(sum/days, days/inverse, c.Lift)
	return high - low
}
