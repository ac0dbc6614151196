package figures

// The one order in which flies are listed, for a day, a half-month or a month: the likeliest first, then the commoner,
// then by name.

import (
	"cmp"
	"math"
	"slices"
	"time"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers/season"
)

// byChance compares rows by a chance, class and name.
func byChance(a, b *Row, chance func(*Row) float64) int {
	return cmp.Or(season.Order(
		season.Ranked{Chance: chance(a), Class: classOf(a.Class), Name: a.Fly.Name.S},
		season.Ranked{Chance: chance(b), Class: classOf(b.Class), Name: b.Fly.Name.S}),
		cmp.Compare(a.Fly.Address, b.Fly.Address))
}

// ByClass compares rows of one chance.
func ByClass(a, b *Row) int { return byChance(a, b, func(*Row) float64 { return 0 }) }

// On looks up what is on around a day.
func (r *Row) On(d calendar.Day) (OnState, Tendency) {
	for _, run := range r.Runs {
		if d >= run.From && d <= run.To {
			return run.State, run.Tendency
		}
	}
	return Off, NoTendency
}

// Around lists the flies that are on, starting, just over or between flights around a day: those on first.
func (w *Water) Around(d calendar.Day) []*Row {
	state := func(r *Row) OnState { s, _ := r.On(d); return s }
	rows := w.ordered(func(r *Row) bool { return state(r) != Off }, func(r *Row) float64 { return r.Chance[d-1] })
	slices.SortStableFunc(rows, func(a, b *Row) int { return cmp.Compare(later(state(a)), later(state(b))) })
	return rows
}

func later(s OnState) int {
	if s == On {
		return 0
	}
	return 1
}

// OnDay lists the flies that are on, on a day.
func (w *Water) OnDay(d calendar.Day) []*Row {
	return w.ordered(func(r *Row) bool { s, _ := r.On(d); return s == On }, func(r *Row) float64 { return r.Chance[d-1] })
}

// OnCell lists the flies that are on at some day of a half-month, by their chance in its middle.
func (w *Water) OnCell(c calendar.Cell) []*Row {
	return w.ordered(func(r *Row) bool { return r.OnCells[c] }, func(r *Row) float64 { return r.Middle(c) })
}

// OnMonth lists the flies that are on at some day of a month, by the month's chance.
func (w *Water) OnMonth(m time.Month) []*Row {
	return w.ordered(func(r *Row) bool { return r.OnMonths[m-1] }, func(r *Row) float64 { return r.Months[m-1].Chance })
}

func (w *Water) ordered(is func(*Row) bool, chance func(*Row) float64) []*Row {
	var rows []*Row
	for _, r := range w.Rows {
		if is(r) {
			rows = append(rows, r)
		}
	}
	slices.SortStableFunc(rows, func(a, b *Row) int { return byChance(a, b, chance) })
	return rows
}

// Middle is the chance on a half-month's middle day.
func (r *Row) Middle(c calendar.Cell) float64 { return r.Chance[c.Middle()-1] }

// Mean is the chance averaged over a half-month.
func (r *Row) Mean(c calendar.Cell) float64 {
	sum := 0.0
	for d := c.First(); d <= c.Last(); d++ {
		sum += r.Chance[d-1]
	}
	return sum / float64(c.Last()-c.First()+1)
}

// PerMille rounds a chance to thousandths so that rounding it again, to a hundredth, gives what rounding once does,
// and only none is 0 and only what is certain 1000.
func PerMille(chance float64) int {
	share, t := content.Round9(chance*100), math.Round(content.Round9(chance*1000))
	if math.Round(t/10) != math.Round(share) {
		t--
	}
	if share > 0 && share < 100 {
		t = min(max(t, 1), 999)
	}
	return int(t)
}
