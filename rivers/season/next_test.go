package season

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/mathext"

	"guidegen/content/calendar"
)

// naiveFall is section 14's fall for one half-month, straight from the text: the month reckoned three times by the
// naive rewriting of section 5, its range by gonum's inverse of the incomplete beta function.
func naiveFall(cell calendar.Cell, year, season int, curve *Curve, own []Visit, m float64) float64 {
	var p [366]float64
	for i, v := range curve {
		p[i+1] = v
	}
	middle := int(cell.Middle())
	width := func(vs []Visit) (wide, there float64) {
		a, b, _, _ := nChance(p, m, nVisits(vs), nil)
		var sum, inverse, days float64
		for d := int(calendar.FirstOf(cell.Month())); d <= int(calendar.LastOf(cell.Month())); d++ {
			sum, inverse, days = sum+a[d]/(a[d]+b[d]), inverse+1/(a[d]+b[d]), days+1
		}
		c, n := sum/days, days/inverse
		low := math.Min(c, mathext.InvRegIncBeta(n*c, n*(1-c), 0.1))
		high := math.Max(c, mathext.InvRegIncBeta(n*c+0.05, n*(1-c), 0.9))
		return high - low, a[middle] / (a[middle] + b[middle])
	}
	add := Visit{Date: calendar.Date{Year: year, Month: cell.Middle().Month(), Day: cell.Middle().DayOfMonth()}, Season: season}
	wide, chance := width(own)
	missed, _ := width(append(own[:len(own):len(own)], add))
	add.Found = true
	found, _ := width(append(own[:len(own):len(own)], add))
	return wide - chance*found - (1-chance)*missed
}

func TestNarrowed(t *testing.T) {
	c := Defaults()
	spring := Expected([]Moved{still(day(4, 10), day(5, 10), day(6, 10), Frequent)}, c)
	winter := Expected([]Moved{still(day(11, 25), day(12, 28), day(1, 31), Abundant)}, c)
	inSeason := func(vs []Visit, x calendar.Day) []Visit {
		for i := range vs {
			vs[i].Season = SeasonOf(vs[i].Date, x)
		}
		return vs
	}
	for _, k := range []struct {
		name string
		p    Curve
		own  []Visit
		cell calendar.Cell
		x    calendar.Day
	}{
		{"nobody looked", spring, nil, 8, 1},
		{"one visit, another half of the month", spring, found(on(2024, 5, 3)), 9, 1},
		{"a visit of another year that day", spring, empty(on(2024, 5, 8)), 8, 1},
		{"a visit of the year that day", spring, found(on(2026, 5, 8)), 8, 1},
		{"the year is full", spring, append(found(on(2026, 5, 8), on(2026, 5, 8), on(2026, 5, 9), on(2026, 5, 10)), empty(on(2026, 5, 8), on(2026, 5, 20))...), 8, 1},
		{"the fly's year begins in July: January belongs to the year before", winter, found(on(2025, 12, 28), on(2025, 12, 30), on(2026, 1, 2), on(2026, 1, 6), on(2026, 1, 8)), 0, 180},
	} {
		t.Run(k.name, func(t *testing.T) {
			own := inSeason(k.own, k.x)
			season := SeasonOf(calendar.Date{Year: 2026, Month: k.cell.Middle().Month(), Day: k.cell.Middle().DayOfMonth()}, k.x)
			got := Narrowed(Tried{P: &k.p, Own: own}, 2026, k.x, c)
			want := naiveFall(k.cell, 2026, season, &k.p, own, c.Trust)
			assert.NotZero(t, want)
			assert.InDelta(t, want, got[k.cell], 1e-7)
			assert.Equal(t, got, Narrowed(Tried{P: &k.p, Own: own, Trust: c.Trust}, 2026, k.x, c))
		})
	}
	t.Run("nothing where the fly is hardly to be expected", func(t *testing.T) {
		got := Narrowed(Tried{P: &spring}, 2026, 1, c)
		for cell, fall := range got {
			assert.Equal(t, round9(spring.At(calendar.Cell(cell).Middle())) >= 0.02, fall != 0, "%s", calendar.Cell(cell))
		}
	})
	t.Run("a fly across New Year is told by its own season", func(t *testing.T) {
		own := inSeason(found(on(2025, 12, 22), on(2025, 12, 23), on(2025, 12, 23), on(2025, 12, 24), on(2025, 12, 30)), 180)
		a := Narrowed(Tried{P: &winter, Own: own}, 2026, 180, c)[23]
		b := Narrowed(Tried{P: &winter, Own: own}, 2025, 180, c)[23]
		assert.Greater(t, a, b, "December 2026 begins a season nobody has looked in; December 2025 is of a full one")
	})
}
