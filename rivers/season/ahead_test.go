package season

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

// logged is a year of daily means by a curve, days late by so many.
func logged(year int, w Wave, late float64) []DayMean {
	var out []DayMean
	for d := (calendar.Date{Year: year, Month: 1, Day: 1}); d.Year == year; d = d.AddDays(1) {
		out = append(out, DayMean{Date: d, Mean: w.At(float64(d.OfYear()) - late)})
	}
	return out
}

var stream = Wave{M: 9, A: -6, B: -2}

func years(n int) []DayMean {
	var out []DayMean
	for i := range n {
		out = append(out, logged(2020+i, stream, 0)...)
	}
	return out
}

func TestAheadAgainstTheSmoothCurve(t *testing.T) {
	as := Ahead(on(2025, 6, 1), 1, 0, logged(2025, stream, 0), &stream)
	assert.Equal(t, Unsure(""), as.Why)
	assert.InDelta(t, 0, as.Days, 1e-9)
	assert.Equal(t, 152, as.Of)
	assert.Equal(t, 0, as.Years)

	// A steady 10 °C against a normal of a steady 8: by the 40th day 400 °C days,
	// which the normal reaches on its 50th.
	flat := Wave{M: 8}
	ten := Ahead(on(2025, 2, 9), 1, 0, logged(2025, Wave{M: 10}, 0), &flat)
	assert.InDelta(t, 10, ten.Days, 1e-9)
	assert.InDelta(t, 400, ten.Sum, 1e-9)
	assert.InDelta(t, 320, ten.Normal, 1e-9)
	cold := Ahead(on(2025, 2, 9), 1, 0, logged(2025, Wave{M: 6}, 0), &flat)
	assert.InDelta(t, -10, cold.Days, 1e-9)

	// The same in a thermal year that starts in July.
	south := append(logged(2024, Wave{M: 10}, 0), logged(2025, Wave{M: 10}, 0)...)
	assert.InDelta(t, 10, Ahead(on(2024, 8, 9), day(7, 1), 0, south, &flat).Days, 1e-9)
	assert.InDelta(t, 50, Ahead(on(2025, 1, 16), day(7, 1), 0, south, &flat).Days, 1e-9, "200 days × 10 is 250 days × 8")
}

func TestAheadAboveAThreshold(t *testing.T) {
	late := logged(2025, stream, 6)
	assert.Equal(t, FewYears, Ahead(on(2025, 6, 1), 1, 4, append(years(2), late...), &stream).Why, "two earlier years")
	got := Ahead(on(2025, 7, 1), 1, 4, append(years(3), late...), nil)
	assert.Equal(t, Unsure(""), got.Why)
	assert.Equal(t, 3, got.Years)
	assert.InDelta(t, -6, got.Days, 0.7, "a year six days late")
	assert.Equal(t, NoNormal, Ahead(on(2025, 7, 1), 1, 0, late, nil).Why)
	assert.Equal(t, FewYears, Ahead(on(2022, 7, 1), 1, 4, years(6), nil).Why, "later years are no earlier years")
	assert.Equal(t, SumZero, Ahead(on(2025, 1, 10), 1, 4, append(years(3), late...), nil).Why)
	warm := logged(2025, Wave{M: 30}, 0)
	assert.Equal(t, PastNormal, Ahead(on(2025, 12, 1), 1, 4, append(years(3), warm...), nil).Why)
	assert.Equal(t, NoReadings, Ahead(on(2025, 6, 1), 1, 4, years(4), nil).Why)

	gappy := years(3)[:2*365+1+250] // the third year stops in September: more than a fifth is missing
	assert.Equal(t, FewYears, Ahead(on(2025, 7, 1), 1, 4, append(gappy, late...), nil).Why)
}

func TestAheadWithDaysMissing(t *testing.T) {
	all := logged(2025, stream, 0)
	without := func(from, to int) []DayMean {
		return append(append([]DayMean(nil), all[:from]...), all[to:]...)
	}
	// 1 January to 10 April is 100 days.
	got := Ahead(on(2025, 4, 10), 1, 0, without(50, 70), &stream)
	assert.Equal(t, Unsure(""), got.Why, "20 % is not more than 20 %")
	assert.Equal(t, 20, got.Missing)
	assert.InDelta(t, 0, got.Days, 1e-9, "a gap looks neither cold nor warm")
	assert.Equal(t, DaysMissing, Ahead(on(2025, 4, 10), 1, 0, without(50, 71), &stream).Why)
	// 2 °C above a steady 8 on 32 of 40 days is 64 °C days, or 8 normal days.
	flat, ten := Wave{M: 8}, logged(2025, Wave{M: 10}, 0)
	ten = append(ten[:10:10], ten[18:]...)
	assert.InDelta(t, 8, Ahead(on(2025, 2, 9), 1, 0, ten, &flat).Days, 1e-9)
	late := without(0, 100)
	assert.Equal(t, NoReadings, Ahead(on(2025, 4, 10), 1, 0, late, &stream).Why, "readings after the date say nothing yet")
}

func TestFitNeedsThreeDays(t *testing.T) {
	_, ok := FitWave(nil)
	assert.False(t, ok)
	_, ok = FitWave([]Reading{{10, 5}, {200, 9}})
	assert.False(t, ok)
	_, ok = FitWave([]Reading{{10, 5}, {200, 9}, {10, 6}, {200, 8}})
	assert.False(t, ok)
	f, ok := FitWave([]Reading{{10, 5}, {130, 9}, {250, 8}})
	assert.True(t, ok)
	assert.Zero(t, f.Residual)
	assert.InDelta(t, 9, f.At(130), 1e-9)
}

func TestFitFindsTheWave(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWave(t, "water")
		var rs []Reading
		for d := 1; d <= 365; d += 3 {
			rs = append(rs, Reading{float64(d), w.At(float64(d))})
		}
		f, ok := FitWave(rs)
		assert.True(t, ok)
		for d := 0.0; d < 365; d += 10 {
			assert.InDelta(t, w.At(d), f.At(d), 1e-9)
			assert.LessOrEqual(t, math.Abs(f.At(d)-f.M), f.Amplitude()+1e-9)
		}
		assert.InDelta(t, f.M+f.Amplitude(), f.At(f.Warmest()), 1e-9)
	})
}

// A day with its lowest and highest is summed by the sine: a night below the base takes nothing away. By hand, 2 to 14 °C
// above 8: mean 8, half 6, the sine is above for half the day: 6/π = 1.90986; the mean method gives 0.
func TestDegreeDaysOfADay(t *testing.T) {
	for _, c := range []struct {
		day  DayMean
		base float64
		want float64
	}{
		{DayMean{Mean: 8}, 8, 0},
		{DayMean{Mean: 8, Low: 2, High: 14, Range: true}, 8, 6 / math.Pi},
		{DayMean{Mean: 8, Low: 2, High: 14, Range: true}, 2, 6},
		{DayMean{Mean: 8, Low: 2, High: 14, Range: true}, 14, 0},
		{DayMean{Mean: 9}, 4, 5},
	} {
		assert.InDelta(t, c.want, c.day.degreeDays(c.base), 1e-9, c)
	}
}
