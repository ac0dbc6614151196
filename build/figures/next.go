package figures

// Where one more visit would help most on a water: section 14 of the rules on figures, with the reason.

import (
	"cmp"
	"slices"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/season"
)

// Next is a half-month in which one more visit would narrow what is known of a water's flies.
type Next struct {
	Cell   calendar.Cell
	Fall   float64 // in the summed width of the flies' 80 % ranges of the month, above 0
	On     []*Row  // listed flies that are on in it, the likeliest first
	Never  []*Row  // of them, those never found in it
	Visits int     // dated visits in it so far
	Years  int     // calendar years of these
}

// Plan is one half-month of the coming year on one water.
type Plan struct {
	Water    *Water
	From, To calendar.Date
	Next
}

// next orders the half-months by their fall; ties: the earlier. The visit that is thought of is one of the year built for.
func (r *reckoner) next(w *Water) []Next {
	falls := make([][calendar.Cells]float64, len(w.Rows))
	eachOf(len(w.Rows), func(i int) {
		if row := w.Rows[i]; row.Listed {
			s := row.stand
			falls[i] = season.Narrowed(season.Tried{P: &s.p, Own: s.held, Lent: s.lent, Trust: s.trust}, r.built.Year, row.Year, r.c.Season)
		}
	})
	var out []Next
	for cell := range calendar.Cell(calendar.Cells) {
		n := Next{Cell: cell, Years: len(w.Coverage.Cells[cell])}
		for _, visits := range w.Coverage.Cells[cell] {
			n.Visits += visits
		}
		for i := range w.Rows {
			n.Fall += falls[i][cell]
		}
		n.On = slices.DeleteFunc(w.OnCell(cell), func(r *Row) bool { return !r.Listed })
		for _, row := range n.On {
			if row.Cells[cell].State != CellFound {
				n.Never = append(n.Never, row)
			}
		}
		if content.Round9(n.Fall) > 0 {
			out = append(out, n)
		}
	}
	slices.SortStableFunc(out, func(a, b Next) int {
		return cmp.Compare(content.Round9(b.Fall), content.Round9(a.Fall))
	})
	return out
}

// How much a season plan holds: a sheet of paper, and no water more than its best half-months.
const (
	planLines = 24
	planEach  = 4
)

// SeasonPlan lists the half-months in which a visit would help most, each in the first year in which it isn't over on
// the date built for: of each water the best four, or fewer where there are more than six waters, but always one. By
// date, then in the order of the waters.
func (b *Book) SeasonPlan() []Plan {
	each := planEach
	if n := len(b.Waters); n > 0 {
		each = max(1, min(planEach, planLines/n))
	}
	var out []Plan
	for _, w := range b.Waters {
		for _, n := range w.Coverage.Best[:min(each, len(w.Coverage.Best))] {
			on := func(year int, d calendar.Day) calendar.Date {
				return calendar.Date{Year: year, Month: d.Month(), Day: d.DayOfMonth()}
			}
			year := b.Built.Year
			if on(year, n.Cell.Last()).Before(b.Built) {
				year++
			}
			out = append(out, Plan{w, on(year, n.Cell.First()), on(year, n.Cell.Last()), n})
		}
	}
	slices.SortStableFunc(out, func(a, b Plan) int { return a.From.Sub(b.From) })
	return out
}
