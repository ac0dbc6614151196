package season

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

var broods = []Moved{still(day(3, 20), day(4, 20), day(5, 20), Abundant), still(day(8, 20), day(9, 15), day(10, 20), Frequent)}

// TestTwoFlightsAreNeverAveraged: the finds of the rules' last worked example
// average to late June; no June date may come out of them.
func TestTwoFlightsAreNeverAveraged(t *testing.T) {
	c := Defaults()
	visits := append(found(on(2024, 4, 10), on(2024, 4, 18), on(2025, 4, 25), on(2025, 5, 2)),
		found(on(2024, 9, 12), on(2025, 9, 20), on(2025, 10, 1))...)
	spring, autumn := FromRecords(visits, broods, 0, c), FromRecords(visits, broods, 1, c)
	assert.Equal(t, FlightDates{
		Protocol: "sweep net", Visits: 4, Seasons: []int{2024, 2025}, P50: day(4, 21), GiveOrTake: 11,
		First: on(2024, 4, 10), Last: on(2025, 5, 2),
		Finds: []calendar.Date{on(2024, 4, 10), on(2024, 4, 18), on(2025, 4, 25), on(2025, 5, 2)},
	}, spring, "between the second and the third")
	assert.InDelta(t, 20, autumn.P50.DayOfMonth(), 1)
	for _, d := range []FlightDates{spring, autumn} {
		for _, x := range []calendar.Day{d.P10, d.P50, d.P90, d.First.OfYear(), d.Last.OfYear()} {
			if x != 0 {
				assert.NotEqual(t, monthOf(6), x.Month())
			}
		}
	}
	for k := range broods {
		for _, g := range Gaps(visits, broods, k, c) {
			assert.Fail(t, "no gap within one flight", "%v", g)
		}
	}
}

// The rules' worked example: finds on 10, 20, 30 May at rates 3, 7, 3, no other visit, two seasons.
func TestMiddleDateByHand(t *testing.T) {
	c := Defaults()
	may := []Moved{still(day(5, 1), day(5, 20), day(6, 10), Frequent)}
	visits := found(on(2024, 5, 10), on(2025, 5, 20), on(2024, 5, 30))
	visits[0].Count, visits[1].Count, visits[2].Count = 3, 7, 3
	w := weigh(visits, visits, "sweep net", ordering(may[0], c), c)
	var got []float64
	for _, x := range w.finds {
		got = append(got, x.weight)
	}
	assert.InDeltaSlice(t, []float64{1.4504, 1.7414, 1.4504}, got, 5e-5)
	first := ordering(may[0], c)(day(5, 1))
	assert.InDelta(t, 12.73, w.at(0.25)-float64(first)+1, 5e-3)
	assert.InDelta(t, 20, w.at(0.5)-float64(first)+1, 1e-9)
	assert.InDelta(t, 27.27, w.at(0.75)-float64(first)+1, 5e-3)
	// s² = (3·10.781² + 4·10²)/7, nₑ = 2.977; the seasons' weights are 2.9008 and 1.7414.
	assert.InDelta(t, 35.93, w.variance(may[0].Dates, c), 5e-3)
	assert.InDelta(t, 1.8826, w.evenSeasons(), 5e-5)
	d := FromRecords(visits, may, 0, c)
	assert.Equal(t, day(5, 20), d.P50)
	assert.Equal(t, 11, d.GiveOrTake, "1.28 √(35.93 + 26.03) is 10.08")
}

// Before the first C the date is the first day, after the last the last; finds of one day are added together.
func TestTheEndsOfTheLine(t *testing.T) {
	w := weighed{finds: []find{{5, 1, 1}, {5, 2, 3}, {9, 1, 4}}, total: 8}
	for q, want := range map[float64]float64{0: 5, 0.25: 5, 0.5: 7, 0.75: 9, 1: 9} {
		assert.InDelta(t, want, w.at(q), 1e-12, "%v", q)
	}
}

// No middle date across a gap of six weeks, visited between or not; a day less leaves it.
func TestNoMiddleDateAcrossAGap(t *testing.T) {
	c := Defaults()
	long := []Moved{still(day(3, 1), day(5, 1), day(10, 31), Abundant)}
	for days, torn := range map[int]int{41: 0, 42: 42, 90: 90} {
		last := on(2025, 4, 1).OfYear().Add(days)
		visits := found(on(2024, 3, 25), on(2025, 4, 1), calendar.Date{Year: 2024, Month: last.Month(), Day: last.DayOfMonth()})
		d := FromRecords(visits, long, 0, c)
		assert.Equal(t, torn, d.TornDays, "%d days", days)
		assert.Equal(t, torn == 0, d.P50 != 0, "%d days", days)
		assert.Equal(t, torn == 0, d.GiveOrTake != 0, "%d days", days)
	}
}

// Two series alike but for a shift of eight days differ by eight at any place in the year, also across New Year
// and wherever half-months end.
func TestAShiftOfEightDays(t *testing.T) {
	c := Defaults()
	for start := calendar.Day(1); start <= calendar.Year; start++ {
		flight := func(by int) []Moved {
			return []Moved{still(start.Add(by), start.Add(20+by), start.Add(45+by), Frequent)}
		}
		series := func(by int) []Visit {
			var out []Visit
			for i, n := range []int{2, 5, 9, 14, 20, 23, 30, 41} {
				d := start.Add(n + by)
				v := found(on(2024+i%2, int(d.Month()), d.DayOfMonth()))[0]
				v.Count, v.Season = float64(1+i*3%7), 2024+i%2
				out = append(out, v)
			}
			return out
		}
		a, b := FromRecords(series(0), flight(0), 0, c), FromRecords(series(8), flight(8), 0, c)
		assert.Equal(t, 8, calendar.Gap(a.P50, b.P50), "from %d", start)
		assert.Equal(t, a.GiveOrTake, b.GiveOrTake)
		got := Compare(series(0), series(8), flight(0), flight(8), 0, c)
		assert.Equal(t, Is(8), got.Median, "from %d", start)
	}
}

func TestRatesPerStandardEffort(t *testing.T) {
	// 12 in 20 sweeps is 30 per 50; 15 in 100 sweeps is 7.5 per 50.
	c := Defaults()
	visits := found(on(2024, 4, 5), on(2025, 5, 5))
	visits[0].Count, visits[0].Effort = 12, Is(20/c.StandardSweeps)
	visits[1].Count, visits[1].Effort = 15, Is(100/c.StandardSweeps)
	assert.InDelta(t, 30, visits[0].Count/visits[0].Effort.Value, 1e-12)
	assert.InDelta(t, 7.5, visits[1].Count/visits[1].Effort.Value, 1e-12)
	w := weigh(visits, visits, "sweep net", ordering(broods[0], c), c)
	assert.Greater(t, w.finds[0].weight, w.finds[1].weight, "the first is the commoner")
}

func TestWhatFlightDatesNeed(t *testing.T) {
	c := Defaults()
	two := found(on(2024, 4, 5), on(2025, 4, 9))
	assert.Zero(t, FromRecords(two, broods, 0, c).P50, "two visits")
	one := found(on(2024, 4, 5), on(2024, 4, 6), on(2024, 4, 9))
	assert.Zero(t, FromRecords(one, broods, 0, c).P50, "one year")
	assert.Equal(t, on(2024, 4, 9), FromRecords(one, broods, 0, c).Last)
	var many []Visit
	for i := range 10 {
		many = append(many, found(on(2020+i%2, 4, 10+i))...)
	}
	d := FromRecords(many, broods, 0, c)
	assert.NotZero(t, d.P50)
	assert.Zero(t, d.P10, "more than ten are needed, not ten")
	d = FromRecords(append(many, found(on(2022, 4, 25))...), broods, 0, c)
	assert.True(t, d.P10 != 0 && d.P90 != 0)
	assert.True(t, d.P10 <= d.P50 && d.P50 <= d.P90)

	bare := found(on(2024, 4, 5), on(2025, 4, 6), on(2025, 4, 9))
	for i := range bare {
		bare[i].Effort = Known{}
	}
	d = FromRecords(bare, broods, 0, c)
	assert.Equal(t, "", d.Protocol, "no effort, no catch rate")
	assert.Len(t, d.Finds, 3)
	assert.Equal(t, FlightDates{}, FromRecords(nil, broods, 0, c))
}

func TestProtocolsAreNotPooled(t *testing.T) {
	c := Defaults()
	visits := found(on(2024, 4, 5), on(2025, 4, 6), on(2025, 5, 9), on(2026, 5, 9))
	visits[2].Protocol, visits[3].Protocol = "light trap", "light trap"
	d := FromRecords(visits, broods, 0, c)
	assert.Equal(t, "light trap", d.Protocol, "two finds each: by name")
	assert.Equal(t, 2, d.Visits)
	visits = append(visits, found(on(2026, 4, 7))...)
	d = FromRecords(visits, broods, 0, c)
	assert.Equal(t, "sweep net", d.Protocol)
	assert.Equal(t, day(4, 6), d.P50, "5, 6 and 7 April")
	assert.Equal(t, on(2026, 5, 9), d.Last, "the last seen by whatever means")
}

func TestFlightAcrossNewYear(t *testing.T) {
	c := Defaults()
	winter := []Moved{still(day(12, 1), day(1, 10), day(2, 10), Frequent)}
	visits := found(on(2024, 11, 2), on(2024, 12, 20), on(2025, 1, 5), on(2025, 2, 28), on(2024, 2, 29))
	d := FromRecords(visits, winter, 0, c)
	assert.Equal(t, on(2024, 11, 2), d.First)
	assert.Equal(t, 5, d.Visits)
	assert.Equal(t, []calendar.Date{on(2024, 11, 2), on(2024, 12, 20), on(2025, 1, 5), on(2024, 2, 29), on(2025, 2, 28)}, d.Finds)
	assert.Zero(t, d.P50, "54 days between two finds: none")
	assert.Equal(t, 54, d.TornDays)
	assert.Equal(t, -1, Assign(day(10, 31), winter, c), "31 days before")
	assert.Equal(t, 0, Assign(day(11, 1), winter, c), "30 days before")
}

func TestAssign(t *testing.T) {
	c := Defaults()
	fs := []Moved{still(100, 110, 150, Frequent), still(140, 160, 200, Frequent)}
	assert.Equal(t, 1, Assign(145, fs, c), "in both, nearer the second's peak")
	assert.Equal(t, 0, Assign(130, fs, c))
	assert.Equal(t, 1, Assign(230, fs, c))
	assert.Equal(t, -1, Assign(231, fs, c))
	assert.Equal(t, -1, Assign(10, nil, c))
	even := []Moved{still(100, 105, 110, Frequent), still(130, 135, 140, Frequent)}
	assert.Equal(t, 0, Assign(120, even, c), "ten days from each: the first")
	assert.Equal(t, 1, Assign(121, even, c))
}

func TestGaps(t *testing.T) {
	c := Defaults()
	one := []Moved{still(day(3, 1), day(5, 1), day(10, 31), Abundant)}
	finds := found(on(2023, 4, 10), on(2024, 4, 18), on(2023, 9, 12), on(2025, 9, 20))
	gaps := Gaps(finds, one, 0, c)
	require.Len(t, gaps, 1)
	assert.Equal(t, Gap{day(4, 18), day(9, 12), 147, 0, GapUnvisited}, gaps[0])

	few := append(finds, empty(on(2023, 6, 1), on(2024, 7, 1), on(2024, 4, 18), on(2024, 9, 12), on(2024, 12, 1))...)
	assert.Equal(t, Gap{day(4, 18), day(9, 12), 147, 2, GapThin}, Gaps(few, one, 0, c)[0], "the days at its ends are not in the gap")
	three := append(few, empty(on(2020, 8, 1))...)
	assert.Equal(t, GapByChance, Gaps(three, one, 0, c)[0].Says, "one find beside each bounding one: C(1,1)/C(4,1) = 0.25")
	runs := append(three, found(on(2023, 4, 4), on(2022, 9, 22))...)
	assert.Equal(t, TwoFlights, Gaps(runs, one, 0, c)[0].Says, "two: C(2,2)/C(5,2) = 0.1")
	assert.Equal(t, GapByChance, Gaps(append(runs, empty(on(2024, 4, 12))...), one, 0, c)[0].Says, "missed beside the gap too: C(3,2)/C(6,2) = 0.2")
	assert.Equal(t, GapByChance, Gaps(append(runs, empty(on(2024, 10, 24))...), one, 0, c)[0].Says, "after it likewise, 42 days off")
	assert.Equal(t, TwoFlights, Gaps(append(runs, empty(on(2024, 3, 6), on(2024, 10, 25))...), one, 0, c)[0].Says, "43 days off")

	pair := append(one, still(day(6, 1), day(7, 1), day(7, 31), Rare))
	other := append(finds, found(on(2023, 7, 1), on(2023, 7, 2), on(2023, 7, 3))...)
	assert.Equal(t, GapUnvisited, Gaps(other, pair, 0, c)[0].Says, "finds of another flight are no empty visits")

	assert.Len(t, Gaps(found(on(2023, 4, 1), on(2023, 5, 13)), one, 0, c), 1, "six weeks")
	assert.Empty(t, Gaps(found(on(2023, 4, 1), on(2023, 5, 12)), one, 0, c), "a day less")
	assert.Empty(t, Gaps(nil, one, 0, c))
}

func TestCompareBySeasonsOnBoth(t *testing.T) {
	c := Defaults()
	spring := func(year, first int) []Visit {
		return found(on(year, 4, first), on(year, 4, first+1), on(year, 4, first+2))
	}
	a := append(append(append(spring(2021, 2), spring(2022, 5)...), spring(2023, 4)...), empty(on(2020, 4, 3))...)
	b := append(append(append(spring(2022, 9), spring(2023, 5)...), spring(2024, 20)...), found(on(2021, 4, 5))...)
	got := Compare(a, b, broods, broods, 0, c)
	assert.Equal(t, []SeasonPair{{2022, day(4, 6), day(4, 10), 4}, {2023, day(4, 5), day(4, 6), 1}}, got.Seasons)
	assert.Equal(t, []int{2020, 2021, 2024}, got.LeftOut)
	assert.Equal(t, Is(3), got.Median, "2.5, half away from zero")
	assert.Equal(t, Is(-3), Compare(b, a, broods, broods, 0, c).Median)
	// Three finds a day apart of nearly equal weight, of a flight of 61 days: s² = (3·0.7² + 4·15.25²)/7 = 133, v = 44 in each
	// of four season middles.
	assert.Equal(t, 9, got.GiveOrTake, "1.28 √(4 × 44) / 2 is 8.5")
	assert.False(t, Compare(a, nil, broods, broods, 0, c).Median.OK)
	for i := range b {
		b[i].Protocol = "light trap"
	}
	assert.Equal(t, Comparison{}, Compare(a, b, broods, broods, 0, c), "another way of sampling there")
}

// A season with a gap of six weeks between its finds is left out.
func TestCompareLeavesTornSeasonsOut(t *testing.T) {
	c := Defaults()
	long := []Moved{still(day(3, 1), day(5, 1), day(10, 31), Abundant)}
	whole := found(on(2024, 5, 1), on(2024, 5, 8), on(2024, 5, 20))
	torn := found(on(2024, 5, 1), on(2024, 5, 8), on(2024, 7, 20))
	assert.True(t, Compare(whole, whole, long, long, 0, c).Median.OK)
	got := Compare(whole, torn, long, long, 0, c)
	assert.False(t, got.Median.OK)
	assert.Equal(t, []int{2024}, got.LeftOut)
}

func TestDatesLieInTheirFlight(t *testing.T) {
	c := Defaults()
	rapid.Check(t, func(t *rapid.T) {
		var fs []Moved
		for _, f := range drawFlights(t) {
			fs = append(fs, Move(f, Local{}, Place{}, Place{}, c))
		}
		visits := drawVisits(t, "own")
		seen := 0
		for k := range fs {
			d := FromRecords(visits, fs, k, c)
			seen += len(d.Finds)
			order := ordering(fs[k], c)
			for _, x := range []calendar.Day{d.P10, d.P50, d.P90} {
				assert.True(t, x == 0 || order(x) >= order(d.First.OfYear()) && order(x) <= order(d.Last.OfYear()))
			}
		}
		outside := 0
		for _, v := range visits {
			if v.Found && Assign(v.day(), fs, c) < 0 {
				outside++
			}
			if v.Found {
				seen--
			}
		}
		assert.Equal(t, 0, seen+outside, "every find belongs to one flight or to none")
	})
}
