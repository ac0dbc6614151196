package season

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

// Section 1 of the rules on figures: the fly's year.
func TestFlysYear(t *testing.T) {
	for _, c := range []struct {
		what    string
		flights []Dates
		want    calendar.Day
	}{
		{"the rules' winter fly", []Dates{{From: day(11, 25), To: day(1, 31)}}, 180},
		{"none crosses New Year", []Dates{{From: day(2, 25), To: day(4, 25)}, {From: day(9, 5), To: day(11, 5)}}, 1},
		{"none", nil, 1},
		{"every day", []Dates{{From: day(6, 1), To: day(5, 31)}}, 1},
		{"one free day", []Dates{{From: day(6, 2), To: day(5, 31)}}, day(6, 1)},
		{"the longest of two runs", []Dates{{From: day(12, 1), To: day(1, 31)}, {From: day(4, 1), To: day(5, 31)}}, day(6, 1).Add(183 / 2)},
		{"two runs alike: the first in the calendar", []Dates{{From: 300, To: 64}, {From: 165, To: 199}}, calendar.Day(65).Add(50)},
		{"without limits", []Dates{{From: day(11, 25)}}, 1},
		{"the free run crosses New Year with it", []Dates{{From: day(12, 31), To: day(1, 1)}, {From: day(3, 1), To: day(9, 30)}}, day(10, 1).Add(91 / 2)},
	} {
		assert.Equal(t, c.want, FlysYear(c.flights), c.what)
	}
}

func TestSeasonOfAndItsName(t *testing.T) {
	for _, c := range []struct {
		d    calendar.Date
		x    calendar.Day
		want int
		name string
	}{
		{on(2023, 12, 28), 180, 2023, "2023/24"},
		{on(2024, 1, 10), 180, 2023, "2023/24"},
		{on(2024, 6, 29), 180, 2024, "2024/25"},
		{on(2024, 6, 28), 180, 2023, "2023/24"},
		{on(2024, 1, 10), 200, 2024, "2023/24"},
		{on(2023, 12, 28), 200, 2024, "2023/24"},
		{on(2023, 7, 19), 200, 2024, "2023/24"},
		{on(2023, 7, 18), 200, 2023, "2022/23"},
		{on(2023, 7, 1), 182, 2023, "2023/24"},
		{on(2023, 7, 1), 183, 2023, "2022/23"},
		{on(2024, 2, 29), 1, 2024, "2024"},
		{on(2099, 12, 1), 180, 2099, "2099/00"},
		{calendar.Date{}, 180, 0, "0/01"},
	} {
		assert.Equal(t, c.want, SeasonOf(c.d, c.x), "%v from %d", c.d, c.x)
		assert.Equal(t, c.name, SeasonName(c.want, c.x))
	}
}

// The cap counts a flight across New Year as one season: ten finds about New Year weigh as four.
func TestTheCapCountsSeasons(t *testing.T) {
	c := Defaults()
	p := Flat(0.5)
	visits := found(on(2024, 1, 1), on(2024, 1, 1), on(2024, 1, 1), on(2024, 1, 1), on(2023, 12, 31), on(2023, 12, 31), on(2023, 12, 31), on(2023, 12, 31))
	calendarYears := Reckon(&p, visits, nil, c).Own.At(1)
	for i := range visits {
		visits[i].Season = SeasonOf(visits[i].Date, 180)
	}
	season := Reckon(&p, visits, nil, c).Own.At(1)
	assert.InDelta(t, 4, season, 1e-9)
	assert.Greater(t, calendarYears, 7.9)
}

func TestTrustByHand(t *testing.T) {
	c := Defaults()
	p := Flat(0.5)
	measure := func(visits []Visit) float64 {
		var s Spread
		s.Add(&p, visits)
		return s.Trust(c)
	}
	ten := empty(on(2024, 5, 1), on(2024, 5, 2), on(2024, 5, 3), on(2024, 5, 4), on(2024, 5, 5),
		on(2025, 5, 6), on(2025, 5, 7), on(2025, 5, 8), on(2025, 5, 9), on(2025, 5, 10))
	assert.Equal(t, 3.0, measure(nil), "no records: the most")
	assert.Equal(t, 3.0, measure(append(found(on(2024, 5, 1), on(2024, 5, 2), on(2025, 5, 3)), empty(on(2025, 5, 4))...)), "the rules' first example")
	assert.InDelta(t, 1.071, measure(ten), 5e-4, "the rules' second example")
	assert.Equal(t, 3.0, measure(empty(on(2024, 5, 1))), "one visit in the month says nothing")
	half := empty(on(2024, 5, 1), on(2024, 5, 2), on(2024, 5, 3))
	for i := range half {
		half[i].Effort = Is(0.5)
	}
	assert.Equal(t, 3.0, measure(half), "three halves are less than two")
	held := append([]Visit(nil), ten...)
	for i := range held {
		held[i].Held = true
	}
	assert.Equal(t, 3.0, measure(held), "held visits don't count")
	many := append(append([]Visit(nil), ten...), ten...)
	many = append(append(many, many...), many...)
	assert.Equal(t, 1.0, measure(many), "never below the least")
}

// Rows further off than the rule reaches: uncertain by weeks, and worth one visit at most.
func TestFarRows(t *testing.T) {
	c := Defaults()
	near, far := still(100, 110, 120, Frequent), still(100, 110, 120, Frequent)
	far.Shift.Limited = true
	assert.Equal(t, 2.5, c.ForRow([]Moved{near}, 2.5).Trust)
	assert.Equal(t, 10.0, c.ForRow([]Moved{near}, 2.5).Softening)
	row := c.ForRow([]Moved{near, far}, 2.5)
	assert.Equal(t, []float64{1, 20}, []float64{row.Trust, row.Softening})
	// 30 days before the limit is within reach, 31 beyond.
	ref := Place{Altitude: Is(0)}
	f := Flight{Dates: Dates{100, 110, 120}, Class: Frequent, Moves: ByAltitude}
	at := func(days float64) []Moved {
		return []Moved{Move(f, Local{}, Place{Altitude: Is(days * 121.92 / 4)}, ref, c)}
	}
	assert.False(t, Far(at(30.4)))
	assert.True(t, Far(at(30.6)))
	assert.Equal(t, 30, at(30.6)[0].Shift.Days)
}

// A range's worked example, and its ends.
func TestRangeByHand(t *testing.T) {
	low, high := spread(0.1, 10, 0.05)
	assert.InDelta(t, 0.0116, low, 5e-5)
	assert.InDelta(t, 0.2326, high, 5e-5)
	low, high = spread(0, 10, 0.05)
	assert.Zero(t, low)
	assert.True(t, high > 0 && high < 0.05, "none found in ten visits' worth isn't never: %v", high)
	low, high = spread(1, 10, 0.05)
	assert.Equal(t, []float64{1, 1}, []float64{low, high})
	_, high = spread(0, 10, 0)
	assert.Zero(t, high)
	rapid.Check(t, func(t *rapid.T) {
		c, n := rapid.Float64Range(0, 1).Draw(t, "c"), rapid.Float64Range(0.5, 50).Draw(t, "n")
		low, high := spread(c, n, 0.05)
		assert.True(t, 0 <= low && low <= c && c <= high && high <= 1, "%v in %v–%v", c, low, high)
	})
}
