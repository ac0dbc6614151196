package season

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"guidegen/content/calendar"
)

func TestTurn(t *testing.T) {
	for _, tc := range []struct {
		d    calendar.Day
		want float64
	}{
		{day(12, 21), 1}, {day(1, 1), 1}, {day(6, 20), 1}, {day(8, 5), 0}, {day(9, 20), -1}, {day(11, 20), -1},
		{day(12, 5), -1 + 2*15.0/31}, {day(12, 6), -1 + 2*16.0/31}, {day(6, 21), 1 - 2/92.0},
	} {
		assert.InDelta(t, tc.want, Turn(tc.d, false), 1e-12, "%d", tc.d)
	}
	assert.Equal(t, -1.0, Turn(day(4, 15), true), "an autumn fly in the south")
	assert.Equal(t, 1.0, Turn(day(9, 20), true), "a spring fly in the south")
	for d := calendar.Day(1); d <= calendar.Year; d++ {
		assert.LessOrEqual(t, math.Abs(Turn(d, false)-Turn(d.Add(1), false)), 2/31.0+1e-12, "no jump at %d", d)
	}
}

var (
	spring = Flight{Dates: Dates{day(4, 1), day(4, 20), day(5, 10)}, Class: Abundant}
	autumn = Flight{Dates: Dates{day(9, 20), day(10, 5), day(10, 25)}, Class: Abundant}
)

func TestAltitude(t *testing.T) {
	c := Defaults()
	ref := Place{Latitude: Is(55), Altitude: Is(90)}
	up := Place{Latitude: Is(55), Altitude: Is(90 + 2*121.92)}
	m := Move(spring, Local{}, up, ref, c)
	assert.Equal(t, 8, m.Shift.Days)
	assert.Equal(t, day(4, 28), m.Peak)
	assert.Equal(t, ByAltitude, m.Shift.Rule)
	assert.True(t, m.Shift.ByDefault)
	assert.Equal(t, Reason(""), m.Shift.Why)
	assert.Equal(t, -8, Move(autumn, Local{}, up, ref, c).Shift.Days, "earlier in autumn")

	far := Place{Latitude: Is(-57), Altitude: Known{}}
	m = Move(spring, Local{}, far, Place{Latitude: Is(-55), Altitude: Is(10)}, c)
	assert.Equal(t, -8, m.Shift.Days, "further from the equator; April is autumn in the south")
	assert.True(t, m.Shift.Latitude.OK && !m.Shift.Altitude.OK)

	m = Move(spring, Local{}, Place{Latitude: Is(75)}, ref, c)
	assert.Equal(t, 30, m.Shift.Days)
	assert.True(t, m.Shift.Limited)
	assert.Equal(t, -30, Move(spring, Local{}, Place{Latitude: Is(0)}, ref, c).Shift.Days)

	m = Move(spring, Local{}, Place{Latitude: Is(55)}, Place{Altitude: Is(10)}, c)
	assert.Equal(t, NoPlace, m.Shift.Why)
	assert.Equal(t, spring.Dates, m.Dates)
}

func TestRounding(t *testing.T) {
	c := Defaults()
	ref := Place{Latitude: Is(50), Altitude: Is(0)}
	move := func(lat, alt float64) int {
		return Move(spring, Local{}, Place{Latitude: Is(lat), Altitude: Is(alt)}, ref, c).Shift.Days
	}
	assert.Equal(t, 3, move(50.625, 0), "2.5 away from zero")
	assert.Equal(t, -3, move(49.375, 0), "-2.5 away from zero")
	assert.Equal(t, 1, move(50.1, 0.1*121.92), "0.4 and 0.4 are summed before rounding")
	assert.Equal(t, 3, move(50.3, 1.3*121.92/4), "1.2 and 1.3: the last bit decides nothing")
}

func TestWarmth(t *testing.T) {
	c := Defaults()
	ref, warm := &Wave{M: 9, A: -4, B: -1}, &Wave{M: 11, A: -4, B: -1}
	here := Place{Temperature: warm, Latitude: Is(70)}
	from := Place{Temperature: ref, Latitude: Is(50)}
	m := Move(spring, Local{}, here, from, c)
	assert.Equal(t, -10, m.Shift.Days, "warmth comes before altitude")
	assert.Equal(t, ByWarmth, m.Shift.Rule)
	assert.InDelta(t, 2, m.Shift.Warmer.Value, 1e-12)
	assert.Equal(t, 10, Move(autumn, Local{}, here, from, c).Shift.Days, "by default it turns with the year")
	written := autumn
	written.Moves = ByWarmth
	assert.Equal(t, -10, Move(written, Local{}, here, from, c).Shift.Days, "written, it does not")
	written.DaysPerDegree = Is(3)
	assert.Equal(t, -6, Move(written, Local{}, here, from, c).Shift.Days)
	written.Moves = ByAltitude
	assert.Equal(t, -30, Move(written, Local{}, here, from, c).Shift.Days)

	// The sixty days that end with the peak, not those about it.
	slope := &Wave{M: 9, A: 3}
	var mean float64
	for d := 110 - 59; d <= 110; d++ {
		mean += slope.At(float64(d)) / 60
	}
	assert.InDelta(t, mean, slope.Before(110, 60), 1e-12)
	assert.InDelta(t, slope.Before(10, 60), slope.Before(375, 60), 1e-12, "across New Year")
}

func TestWhyNotMoved(t *testing.T) {
	c := Defaults()
	full := Place{Latitude: Is(50), Altitude: Is(10), Temperature: &Wave{M: 9}}
	high := Place{Latitude: Is(54), Altitude: Is(400), Temperature: &Wave{M: 7}}
	nothing, warmth := spring, spring
	nothing.Moves, warmth.Moves = ByNothing, ByWarmth
	year := Flight{Dates: Dates{day(1, 10), day(6, 1), day(12, 5)}, Class: Abundant}
	assert.Equal(t, 330, year.Length())
	dam := Place{Latitude: Is(54), Altitude: Is(400), Dam: true}
	for _, tc := range []struct {
		name string
		f    Flight
		l    Local
		here Place
		why  Reason
	}{
		{"nothing", nothing, Local{}, high, AccountSays},
		{"all year", year, Local{}, high, AllYear},
		{"dam", spring, Local{}, dam, BelowDam},
		{"no temperature", warmth, Local{}, Place{Latitude: Is(54)}, NoTemperature},
		{"no place", spring, Local{}, Place{}, NoPlace},
		{"own dates", spring, Local{Dates: Dates{From: day(3, 20), Peak: day(4, 10), To: day(5, 1)}}, high, WaterSays},
	} {
		assert.Equal(t, tc.why, Move(tc.f, tc.l, tc.here, full, c).Shift.Why, tc.name)
	}
	dam.Temperature = &Wave{M: 7}
	assert.Equal(t, 10, Move(spring, Local{}, dam, full, c).Shift.Days, "a dam whose temperature is known")
	year.To = day(12, 4)
	assert.Equal(t, Reason(""), Move(year, Local{}, high, full, c).Shift.Why, "329 days")

	own := Move(spring, Local{Class: Rare, Dates: Dates{From: day(3, 20), Peak: day(4, 10), To: day(5, 1)}}, high, full, c)
	assert.Equal(t, -10, own.Shift.Days, "own peak less the account's")
	assert.Equal(t, Rare, own.Class)
	assert.Equal(t, Dates{day(3, 20), day(4, 10), day(5, 1)}, own.Dates)
}

func TestWarmingNeverDelaysASpringFlight(t *testing.T) {
	c := Defaults()
	rapid.Check(t, func(t *rapid.T) {
		f := Flight{Dates: drawDates(t, "flight"), Class: Frequent, Moves: ByWarmth}
		if f.Peaked().Peak <= 171 && rapid.Bool().Draw(t, "by default") {
			f.Moves = Unsaid
		}
		ref := Place{Temperature: drawWave(t, "reference"), Latitude: Is(52)}
		cool := drawWave(t, "water")
		warm := *cool
		warm.M += rapid.Float64Range(0, 6).Draw(t, "warming")
		a := Move(f, Local{}, Place{Temperature: cool}, ref, c)
		b := Move(f, Local{}, Place{Temperature: &warm}, ref, c)
		assert.LessOrEqual(t, b.Shift.Days, a.Shift.Days)
		assert.LessOrEqual(t, abs(b.Shift.Days), 30)
	})
}
