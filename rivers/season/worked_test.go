package season

// The worked examples printed with the rules on figures, and edge cases whose
// answers can be had by hand.

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"guidegen/content/calendar"
)

func monthOf(m int) time.Month { return time.Month(m) }

func day(m, d int) calendar.Day { return calendar.DayOf(time.Month(m), d) }

func on(year, m, d int) calendar.Date {
	return calendar.Date{Year: year, Month: time.Month(m), Day: d}
}

func found(dates ...calendar.Date) []Visit {
	var out []Visit
	for _, d := range dates {
		out = append(out, Visit{Date: d, Found: true, Effort: Is(1), Protocol: "sweep net", Count: 1})
	}
	return out
}

func empty(dates ...calendar.Date) []Visit {
	var out []Visit
	for _, d := range dates {
		out = append(out, Visit{Date: d, Effort: Is(1), Protocol: "sweep net"})
	}
	return out
}

// still is a flight that a water takes as it is written.
func still(from, peak, to calendar.Day, k Class) Moved {
	return Moved{Dates: Dates{from, peak, to}.Peaked(), Class: k}
}

func TestDefaultsAreThePrintedOnes(t *testing.T) {
	assert.Equal(t, Constants{
		StandardSweeps: 50, StandardMinutes: 10,
		Dominant: 0.95, Abundant: 0.80, Frequent: 0.50, Occasional: 0.20, Rare: 0.05, LongestUnpeaked: 200,
		WarmthWindow: 60, DaysPerDegree: 5, LargestShift: 30, Softening: 10, FarSoftening: 20,
		Bandwidth: 7, Trust: 3, LeastTrust: 1, TrustPrior: 50, YearVisits: 4, Lift: 0.05, LendWithin: 30, LentWeight: 0.25, Unlisted: 0.02, NotExpected: 0.02, ThinVisits: 3,
		AssignWithin: 30, MedianVisits: 3, MedianYears: 2, DateSpread: 1.28, SpreadFinds: 4, YearSpread: 49, SpreadVisits: 10, GapDays: 42, GapVisits: 3,
		OnNow: 0.10, OnScarce: 0.03, ShortFlight: 28,
	}, Defaults())
	seen := map[string]bool{}
	for i, s := range Settings() {
		assert.False(t, seen[s.Key], s.Key)
		seen[s.Key] = true
		field := reflect.TypeFor[Constants]().Field(i).Name
		assert.Equal(t, strings.ToLower(field), strings.ReplaceAll(s.Key, "_", ""), "settings stand in the order of the fields")
		assert.True(t, s.Low <= s.Default && s.Default <= s.High, s.Key)
		c := Constants{}
		s.Set(&c, 7)
		assert.Equal(t, 7.0, s.Get(c))
		for j, other := range Settings() {
			assert.Equal(t, i == j, other.Get(c) == 7, "%s and %s", s.Key, other.Key)
		}
	}
}

func TestKernel(t *testing.T) {
	w := newKernel(7)
	assert.InDelta(t, 68.870, math.Pow(365/(2*math.Pi*7), 2), 5e-4)
	assert.InDelta(t, 0.607, w[calendar.Year-1+7], 5e-4)
	assert.InDelta(t, 0.137, w[calendar.Year-1-14], 5e-4)
	assert.Equal(t, 1.0, w[calendar.Year-1])
	assert.InDelta(t, w[calendar.Year-1+100], w[calendar.Year-1-265], 1e-15, "the year is a circle")
}

func TestOneVisit(t *testing.T) {
	p := Flat(0.5)
	out := Reckon(&p, found(on(2026, 4, 10)), nil, Defaults())
	d := day(4, 10)
	assert.InDelta(t, 0.625, out.Chance.At(d), 1e-12)
	assert.InDelta(t, 4, out.Weight(d), 1e-12)
}

func TestEffort(t *testing.T) {
	p, c, d := Flat(0.5), Defaults(), day(4, 10)
	weight := func(v Visit) float64 {
		v.Date = on(2026, 4, 10)
		return Reckon(&p, []Visit{v}, nil, c).Own.At(d)
	}
	assert.InDelta(t, 1, weight(Visit{}), 1e-12, "unknown effort is a standard one")
	assert.InDelta(t, 0.4, weight(Visit{Effort: Is(0.4)}), 1e-12)
	assert.InDelta(t, 1, weight(Visit{Effort: Is(3)}), 1e-12, "no empty visit is worth more than one")
	assert.InDelta(t, 1, weight(Visit{Effort: Is(0.1), Found: true}), 1e-12, "a find is a find")
	assert.InDelta(t, 0, weight(Visit{Effort: Is(0)}), 1e-12)
}

func TestOneYearSaysNoMoreThanFourVisits(t *testing.T) {
	p, c := Flat(0.5), Defaults()
	var many []Visit
	for range 50 {
		many = append(many, found(on(2026, 4, 10))...)
	}
	out := Reckon(&p, many, nil, c)
	assert.InDelta(t, 4, out.Own.At(day(4, 10)), 1e-12)
	assert.InDelta(t, 5.5/7, out.Chance.At(day(4, 10)), 1e-12)
	for i := range many {
		many[i].Date.Year = 2020 + i%5
	}
	assert.InDelta(t, 20, Reckon(&p, many, nil, c).Own.At(day(4, 10)), 1e-12, "five years say five times as much")
}

func TestLentNeverOutweighTheAccount(t *testing.T) {
	p, c := Flat(0.5), Defaults()
	var lent []Lent
	for range 4 {
		lent = append(lent, Lent{Day: 100, Year: 2026, Found: true, Worth: 1})
	}
	out := Reckon(&p, nil, lent, c)
	assert.InDelta(t, 1, out.Lent.At(100), 1e-12, "four lent visits weigh as one own")
	for range 100 {
		lent = append(lent, Lent{Day: 100, Year: 2026, Worth: 1})
	}
	out = Reckon(&p, nil, lent, c)
	assert.InDelta(t, 3, out.Lent.At(100), 1e-12)
	assert.True(t, out.Months[3].NobodyLooked, "lent visits don't stand for looking")
	assert.InDelta(t, 0, out.Months[3].Own, 1e-12)
}

func TestLeapDay(t *testing.T) {
	p, c := Flat(0.5), Defaults()
	a := Reckon(&p, found(on(2024, 2, 29)), nil, c)
	b := Reckon(&p, found(on(2024, 2, 28)), nil, c)
	assert.Equal(t, a, b)
	assert.Equal(t, 1, a.Months[1].Found)
	assert.Equal(t, FoundHere, Cells(found(on(2024, 2, 29)), nil)[3].State)
}

func TestOneDayFlightAcrossNewYear(t *testing.T) {
	c := Defaults()
	c.Softening = 0
	p := Expected([]Moved{still(day(1, 1), 0, day(1, 1), Dominant)}, c)
	assert.InDelta(t, 0.95, p.At(day(1, 1)), 1e-12)
	assert.InDelta(t, 0.95*math.Exp(-0.125), p.At(day(12, 31)), 1e-12, "the spread is never below two days")
	assert.InDelta(t, 0.95*math.Exp(-0.125), p.At(day(1, 2)), 1e-12)

	long := Dates{From: day(12, 1), To: day(2, 1)}
	assert.Equal(t, day(1, 1), long.Peaked().Peak)
	assert.Equal(t, 63, long.Length())
	assert.Equal(t, PeakOutside, Dates{From: day(12, 1), Peak: day(6, 1), To: day(2, 1)}.Fault(c))
	assert.Equal(t, Fault(""), Dates{From: day(1, 1), To: day(7, 19)}.Fault(c), "200 days")
	assert.Equal(t, NeedsPeak, Dates{From: day(1, 1), To: day(7, 20)}.Fault(c), "201 days")
}

func TestMissingPeakIsRoundedTowardsTheStart(t *testing.T) {
	assert.Equal(t, calendar.Day(10), Dates{From: 10, To: 11}.Peaked().Peak)
	assert.Equal(t, calendar.Day(11), Dates{From: 10, To: 12}.Peaked().Peak)
	assert.Equal(t, calendar.Day(10), Dates{From: 10, To: 10}.Peaked().Peak)
}

func TestNoEvidenceIsExactlyTheAccount(t *testing.T) {
	c := Defaults()
	p := Expected([]Moved{still(day(4, 1), day(4, 20), day(5, 20), Abundant)}, c)
	out := Reckon(&p, nil, nil, c)
	assert.Equal(t, p, out.Chance)
	assert.Equal(t, 3.0, out.Months[0].Weight)
	assert.Equal(t, 1.0, out.Months[0].Account)
	assert.True(t, out.Months[0].NotExpected)
	assert.False(t, out.Months[3].NotExpected)
	assert.True(t, out.Months[3].Thin && out.Months[3].NobodyLooked)
}

func TestHeldFinds(t *testing.T) {
	c := Defaults()
	flights := []Moved{still(day(4, 1), 0, day(4, 30), Frequent)}
	odd := found(on(2026, 8, 1))
	odd[0].Unreviewed = true
	held := Hold(odd, nil, flights, c)
	assert.True(t, held[0].Held)
	p := Flat(0.1)
	out := Reckon(&p, held, nil, c)
	assert.Equal(t, p, out.Chance, "it waits for a reviewer")
	assert.Equal(t, 1, out.Months[7].Found, "but is counted")
	assert.Equal(t, 1, out.Months[7].Looked)

	within := found(on(2026, 5, 30))
	within[0].Unreviewed = true
	assert.False(t, Hold(within, nil, flights, c)[0].Held, "30 days after the flight is not outside it")
	within[0].Date = on(2026, 5, 31)
	assert.True(t, Hold(within, nil, flights, c)[0].Held)

	both := append(odd, found(on(2026, 8, 15))...)
	assert.False(t, Hold(both, nil, flights, c)[0].Held, "another visit found it 14 days later")
	both[1].Date = on(2026, 8, 16)
	assert.True(t, Hold(both, nil, flights, c)[0].Held)
	both[1].Date = on(2025, 8, 1)
	assert.False(t, Hold(both, []calendar.Date{both[0].Date.AddDays(3)}, flights, c)[0].Held, "a find outside the scope speaks for it too")
	assert.True(t, Hold(both, nil, flights, c)[0].Held, "another year is not within 14 days")
	assert.False(t, Hold(both, nil, flights, c)[1].Held, "a reviewed find counts")
	assert.False(t, odd[0].Held, "the visits handed in stay as they were")
}

func TestLend(t *testing.T) {
	c := Defaults()
	here := []Moved{still(day(4, 1), day(4, 20), day(5, 10), Abundant), still(day(9, 1), day(9, 20), day(10, 10), Rare)}
	there := []Moved{still(day(4, 1), day(4, 20), day(5, 10), Frequent), still(day(9, 1), day(9, 20), day(10, 10), Frequent)}
	here[0].Shift.Days, there[0].Shift.Days = 6, -3
	visits := append(found(on(2024, 4, 20), on(2024, 3, 2), on(2024, 3, 1)), empty(on(2025, 9, 20))...)
	visits[0].Date = on(2024, 12, 30) // far from every flight
	got := Lend(nil, here, there, append(visits, found(on(2026, 5, 1))...), c)
	assert.Equal(t, []Lent{
		{Day: day(3, 11), Year: 2024, Season: 2024, Found: true, Worth: 1, Visit: 1, Flight: 0}, // 30 days before 1 April
		{Day: day(5, 10), Year: 2026, Season: 2026, Found: true, Worth: 1, Visit: 4, Flight: 0},
	}, got, "31 days before is too far, and two steps of class are too many")
	there[1].Class = Occasional
	assert.Len(t, Lend(nil, here, there, visits, c), 2)
	there[1].Class = NoClass
	assert.Len(t, Lend(nil, here, there, visits, c), 1)
	assert.Empty(t, Lend(nil, here, there[:1], visits, c), "not the same account")
	assert.Empty(t, Lend(nil, nil, nil, visits, c))
	held := found(on(2026, 5, 1))
	held[0].Held = true
	assert.Empty(t, Lend(nil, here, there, held, c), "a find held until somebody has reviewed it")
}

func TestEqualDistanceLendsByTheFirstFlight(t *testing.T) {
	c := Defaults()
	fs := []Moved{still(100, 110, 120, Frequent), still(120, 130, 140, Frequent)}
	fs[0].Shift.Days = 2
	other := []Moved{fs[0], fs[1]}
	other[0].Shift.Days = 0
	d := calendar.Date{Year: 2026, Month: calendar.Day(120).Month(), Day: calendar.Day(120).DayOfMonth()}
	got := Lend(nil, fs, other, found(d), c)
	assert.Equal(t, 0, got[0].Flight)
	assert.Equal(t, calendar.Day(122), got[0].Day)
}

func TestCells(t *testing.T) {
	cells := Cells(append(found(on(2024, 5, 15)), empty(on(2024, 5, 16), on(2025, 5, 31))...), []calendar.Date{on(2024, 6, 1), {}})
	assert.Equal(t, Cell{FoundHere, 1, 1, 1}, cells[8])
	assert.Equal(t, Cell{NotFound, 2, 0, 2}, cells[9])
	assert.Equal(t, Cell{State: FoundHere}, cells[10], "a find outside the scope isn't a visit")
	assert.Equal(t, Cell{State: Unlooked}, cells[11])
}

func TestOrder(t *testing.T) {
	a, b := Ranked{0.5, Rare, "b"}, Ranked{0.5 + 1e-12, Frequent, "c"}
	assert.Positive(t, Order(a, b), "the last bits of a chance decide nothing")
	assert.Negative(t, Order(Ranked{0.5, Rare, "a"}, a))
	assert.Negative(t, Order(Ranked{0.6, Rare, "z"}, b))
}
