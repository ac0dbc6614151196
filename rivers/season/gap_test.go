package season

// How often a gap is said to show two flights, of flies with one and of flies with two.

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content/calendar"
)

func TestAllOutside(t *testing.T) {
	// Fisher 1935, The Design of Experiments, ch. 2: of eight cups the four with milk first all told, 1 in 70.
	assert.InDelta(t, 1.0/70, allOutside(4, 4, 4), 1e-9)
	for _, r := range []struct {
		k, n, more int
		want       float64
	}{{1, 1, 3, 1.0 / 4}, {2, 2, 3, 1.0 / 10}, {2, 3, 3, 3.0 / 15}, {0, 5, 9, 1}, {3, 3, 0, 1}} {
		assert.InDelta(t, r.want, allOutside(r.k, r.n, r.more), 1e-9, "%+v", r)
	}
}

// saysTwo is the share of flies whose gaps are said to show two flights. A fly's visits lie between early March and
// early November of five years that differ by a week.
func saysTwo(class Class, visits int, plan func(*Rand) (Dates, []Dates)) float64 {
	const flies = 300
	r, c, said := NewRand(11), Defaults(), 0
	for range flies {
		account, flights := plan(r)
		p := Plan{PeakSD: 8, Factor: 1.35, YearSD: 7, Years: 5, First: 2022}
		for _, d := range flights {
			p.Flights = append(p.Flights, Flight{Dates: d, Class: class})
		}
		for _, g := range Gaps(p.Water(r, c).Visits(r, visits, 65, 310), []Moved{{Dates: account, Class: class}}, 0, c) {
			if g.Says == TwoFlights {
				said++
				break
			}
		}
	}
	return float64(said) / flies
}

func TestGapsOfOneFlight(t *testing.T) {
	for name, side := range map[string]int{"two to six months": 30, "four to eight": 60, "six to ten": 90} {
		for _, class := range everyClass {
			for _, visits := range []int{12, 25, 50, 100, 200} {
				got := saysTwo(class, visits, func(r *Rand) (Dates, []Dates) {
					peak := calendar.Day(130 + r.Intn(120))
					d := Dates{peak.Add(-side - r.Intn(61)), peak, peak.Add(side + r.Intn(61))}
					return d, []Dates{d}
				})
				t.Logf("%s, class %d, %d visits: %.3f", name, class, visits, got)
				assert.LessOrEqual(t, got, 0.05, "%s, class %d, %d visits", name, class, visits)
			}
		}
	}
}

func TestGapsOfTwoFlights(t *testing.T) {
	for visits, least := range map[int]float64{25: 0.15, 50: 0.6, 100: 0.8} {
		got := saysTwo(Abundant, visits, func(r *Rand) (Dates, []Dates) {
			mid := calendar.Day(170 + r.Intn(40))
			flight := func(peak calendar.Day) Dates { return Dates{peak.Add(-25), peak, peak.Add(25)} }
			return Dates{mid.Add(-90), mid, mid.Add(90)}, []Dates{flight(mid.Add(-65)), flight(mid.Add(65))}
		})
		t.Logf("%d visits: %.3f", visits, got)
		assert.GreaterOrEqual(t, got, least, "%d visits", visits)
	}
}
