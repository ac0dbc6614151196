package figures

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// Of one chance the commoner comes first, then by name, then by address; a fly without a class after those that have one.
func TestFliesAreListedInOneOrder(t *testing.T) {
	row := func(name, address string, class species.Class, chance float64) *Row {
		r := &Row{Fly: &Fly{Account: &species.Account{Name: content.Text{S: name}, Address: address}}, Class: class, Runs: []Run{{1, calendar.Year, On, NoTendency}}}
		for i := range r.Chance {
			r.Chance[i] = chance
		}
		for i := range r.OnCells {
			r.OnCells[i] = true
		}
		for i := range r.Months {
			r.OnMonths[i], r.Months[i].Chance = true, chance
		}
		return r
	}
	w := &Water{Rows: []*Row{row("b", "2", species.NoClass, 0.5), row("c", "1", "frequent", 0.5+1e-12), row("b", "1", "frequent", 0.5),
		row("b", "0", "frequent", 0.5), row("a", "1", "rare", 0.5), row("z", "1", "rare", 0.6)}}
	want := []string{"z1", "b0", "b1", "c1", "a1", "b2"}
	names := func(rows []*Row) (out []string) {
		for _, r := range rows {
			out = append(out, r.Fly.Name.S+r.Fly.Address)
		}
		return out
	}
	assert.Equal(t, want, names(w.Around(100)))
	assert.Equal(t, want, names(w.OnDay(100)))
	assert.Equal(t, want, names(w.OnCell(9)))
	assert.Equal(t, want, names(w.OnMonth(time.May)))

	// A half-month goes by its middle day, the 8th or 23rd, and averages its own days alone.
	r := w.Rows[0]
	r.Chance = [calendar.Year]float64{}
	r.Chance[calendar.DayOf(time.May, 23)-1] = 0.9
	r.Chance[calendar.DayOf(time.May, 15)-1] = 0.7
	assert.Equal(t, "b2", names(w.OnCell(9))[0])
	assert.InDelta(t, 0.9/16, r.Mean(9), 1e-12)
	assert.InDelta(t, 0.7/15, r.Mean(8), 1e-12)
	assert.Zero(t, r.Middle(8))
}

// Thousandths are rounded so that rounding them to hundredths gives what rounding once does: by hand, 0.1448 is 14 in a
// hundred and 145 in a thousand would round to 15.
func TestPerMille(t *testing.T) {
	for chance, want := range map[float64]int{0: 0, 1: 1000, 0.1448: 144, 0.145: 145, 0.1454: 145, 0.2346: 234, 0.2351: 235, 0.00049: 1, 1e-6: 1, 1e-12: 0, 0.9948: 994, 0.9996: 999} {
		assert.Equal(t, want, PerMille(chance), chance)
	}
	for i := range 100_001 {
		c := float64(i) / 100_000
		assert.InDelta(t, math.Round(content.Round9(c*100)), math.Round(float64(PerMille(c))/10), 0, "%v", c)
	}
}
