package season

// Do the days beside a middle date hold the truth in eight cases of ten? Waters are drawn, their visits, and the middle
// date of each is held against the water's own over all years.

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content/calendar"
)

// middle is the long-run middle date, in days of the flight's order, of a water whose only flight is taken as moved.
func (w *Water) middle(moved []Moved, c Constants) float64 {
	var p [calendar.Year]float64
	start, total := moved[0].From.Add(-30), 0.0
	for n := range p {
		d := start.Add(n)
		if Assign(d, moved, c) != 0 {
			continue
		}
		for step := -15; step <= 15; step++ {
			z := float64(step) / 5
			p[n] += math.Exp(-z*z/2) * w.chance(float64(d), z*w.plan.YearSD)
		}
		total += p[n]
	}
	before := 0.0
	for n := range p {
		if before+p[n] >= total/2 {
			return float64(n) + (total/2-before)/p[n] - 0.5
		}
		before += p[n]
	}
	return 0
}

// Of few finds and of many, over two to five seasons, evenly visited or three quarters in one, the share held is 0.78 to
// 0.92.
func TestMiddleDatesHold(t *testing.T) {
	type class struct {
		finds   string
		clumped bool
	}
	held, all := map[class]int{}, map[class]int{}
	r, c := NewRand(5), Defaults()
	for i := range 12000 {
		peak := calendar.Day(120 + r.Intn(120))
		d := Dates{peak.Add(-10 - r.Intn(50)), peak, peak.Add(10 + r.Intn(60))}
		k, n := everyClass[r.Intn(5)], []int{15, 25, 40, 60, 90, 150}[r.Intn(6)]
		p := Plan{Flights: []Flight{{Dates: d, Class: k}}, PeakSD: 8, Factor: 1.5, YearSD: 7, Years: 2 + r.Intn(4), First: 2022}
		w := p.Water(r, c)
		visits, clumped := w.Visits(r, n, 65, 310), i%3 == 0
		if clumped {
			one := *w
			one.plan.Years = 1
			visits = append(one.Visits(r, n*3/4, 65, 310), visits[:n/4]...)
		}
		moved := []Moved{{Dates: d, Class: k}}
		got := FromRecords(visits, moved, 0, c)
		if got.P50 == 0 {
			continue
		}
		finds := "many"
		if got.Visits <= 4 {
			finds = "3 or 4"
		} else if got.Visits <= 10 {
			finds = "5 to 10"
		}
		off := float64(ordering(moved[0], c)(got.P50)) - w.middle(moved, c)
		all[class{finds, clumped}]++
		if math.Abs(off) <= float64(got.GiveOrTake)+0.5 {
			held[class{finds, clumped}]++
		}
	}
	assert.Len(t, all, 6)
	for k, n := range all {
		share := float64(held[k]) / float64(n)
		t.Logf("%s finds, clumped %v: %.3f of %d", k.finds, k.clumped, share, n)
		assert.Greater(t, n, 200)
		assert.True(t, share >= 0.78 && share <= 0.92, "%+v: %.3f", k, share)
	}
}
