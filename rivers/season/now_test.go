package season

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content/calendar"
)

// block is a chance of low all year and of high from day a to day b.
func block(low, high float64, a, b calendar.Day) Curve {
	c := Flat(low)
	for d := a; d <= b; d++ {
		c[d-1] = high
	}
	return c
}

func TestOnNow(t *testing.T) {
	c := Defaults()
	year := block(0.01, 0.10, 100, 120)
	days := Days(OnDays(&year, c), &year, nil)
	at := func(d calendar.Day) On { return days[d-1].On }
	assert.Equal(t, []On{Off, Starting, Starting, IsOn}, []On{at(92), at(93), at(99), at(100)})
	assert.Equal(t, []On{IsOn, JustOver, JustOver, Off}, []On{at(120), at(121), at(127), at(128)})
	for _, w := range days[:92] {
		assert.Equal(t, NoWord, w.Word, "only flies on have a tendency")
	}
	assert.Equal(t, []Word{Rising, Steady, Fading}, []Word{days[99].Word, days[109].Word, days[119].Word})

	year = block(0.01, 0.10-1e-12, 100, 120)
	assert.Equal(t, IsOn, Days(OnDays(&year, c), &year, nil)[105].On, "the last bits decide nothing")
	year = block(0.01, 0.03, 100, 120)
	assert.Equal(t, IsOn, Days(OnDays(&year, c), &year, nil)[105].On, "a scarce fly at its best")
	year[10] = 0.07
	assert.Equal(t, Off, Days(OnDays(&year, c), &year, nil)[105].On, "below half its best")
	year[10] = 0.06
	assert.Equal(t, IsOn, Days(OnDays(&year, c), &year, nil)[105].On, "half its best")
	year = block(0.01, 0.029, 100, 120)
	assert.Equal(t, Off, Days(OnDays(&year, c), &year, nil)[105].On)
}

func TestStartingComesBeforeJustOver(t *testing.T) {
	year := block(0, 0.5, 100, 110)
	for d := calendar.Day(116); d < 130; d++ {
		year[d-1] = 0.5
	}
	assert.Equal(t, Starting, Days(OnDays(&year, Defaults()), &year, nil)[112].On)
	year = block(0, 0.5, 360, 365)
	assert.Equal(t, JustOver, Days(OnDays(&year, Defaults()), &year, nil)[0].On, "across New Year")
	assert.Equal(t, Starting, Days(OnDays(&year, Defaults()), &year, nil)[354].On)
}

func TestTendency(t *testing.T) {
	assert.Equal(t, Steady, tendency(1.1, 1))
	assert.Equal(t, Rising, tendency(1.1001, 1))
	assert.Equal(t, Steady, tendency(0.9, 1))
	assert.Equal(t, Fading, tendency(0.8999, 1))
	assert.Equal(t, Steady, tendency(0, 0))
	assert.Equal(t, Rising, tendency(1, 0))
}

func TestBetweenFlights(t *testing.T) {
	c := Defaults()
	near := []Moved{still(100, 110, 120, Abundant), still(161, 170, 180, Abundant)}
	assert.False(t, BetweenFlights(120, near))
	assert.True(t, BetweenFlights(121, near), "41 days apart")
	assert.True(t, BetweenFlights(160, near))
	assert.False(t, BetweenFlights(161, near))
	assert.False(t, BetweenFlights(90, near) || BetweenFlights(200, near), "winter is not between flights")
	assert.False(t, BetweenFlights(130, []Moved{near[0], still(162, 170, 180, Abundant)}), "six weeks apart")
	assert.False(t, BetweenFlights(130, near[:1]))
	assert.False(t, BetweenFlights(10, []Moved{still(20, 100, 364, Rare)}), "one flight has nothing between")
	assert.False(t, BetweenFlights(140, append(near, still(90, 140, 300, Rare))), "a third flight covers it")
	assert.True(t, BetweenFlights(1, []Moved{still(340, 345, 350, Rare), still(20, 25, 30, Rare)}), "across New Year")

	// The largest chance lies between the flights by a quirk of the records.
	year := block(0.2, 0.9, 130, 130)
	year[104], year[170] = 0.8, 0.8
	assert.Equal(t, calendar.Day(105), LargestDay(&year, near), "the first of equal days")
	assert.Equal(t, Today{IsOn, Between}, Days(OnDays(&year, c), &year, near)[129])
	flat := Flat(0)
	assert.Equal(t, calendar.Day(0), LargestDay(&flat, near))
}

func TestRuns(t *testing.T) {
	year := block(0.01, 0.5, 100, 120)
	days := Days(OnDays(&year, Defaults()), &year, nil)
	runs := Runs(days)
	i := 0
	for n, r := range runs {
		assert.Positive(t, r.Length)
		if n > 0 {
			assert.NotEqual(t, runs[n-1].Today, r.Today)
		}
		for range r.Length {
			assert.Equal(t, days[i], r.Today)
			i++
		}
	}
	assert.Equal(t, calendar.Year, i)
}

func TestShortFlights(t *testing.T) {
	c := Defaults()
	fs := []Moved{still(100, 110, 126, Abundant), still(200, 210, 227, Abundant), still(364, 1, 3, Rare)}
	p := Expected(fs, c)
	out := Reckon(&p, nil, nil, c)
	assert.Equal(t, []Short{
		{0, 27, 90, 136, 0.8}, // 27 days; the second has 28
		{2, 5, 354, 13, 0.05},
	}, ShortFlights(fs, out, c))
	var visits []Visit
	for y := 2010; y < 2026; y++ {
		visits = append(visits, found(on(y, 4, 12), on(y, 4, 24))...)
	}
	out = Reckon(&p, visits, nil, c)
	assert.Equal(t, 2, ShortFlights(fs, out, c)[0].Flight, "own visits settle the first")
}

func TestSums(t *testing.T) {
	c := Defaults()
	p, q := Flat(0.25), Flat(0.5)
	sum := ToExpect([]*Chances{Reckon(&p, nil, nil, c), Reckon(&q, nil, nil, c)})
	assert.InDelta(t, 0.75, sum[1], 1e-12)
	assert.Equal(t, [12]float64{}, ToExpect(nil))

	f := still(100, 110, 120, Abundant)
	assert.Equal(t, Entry{100, 120, false}, CalendarEntry(f, FlightDates{P50: 111}))
	assert.Equal(t, Entry{105, 115, true}, CalendarEntry(f, FlightDates{P10: 105, P50: 111, P90: 115}))

	year := block(0.1, 0.9, 1, 3)
	assert.Equal(t, 0.9, year.LargestIn(350, 2), "dates across New Year")
	assert.Equal(t, 0.1, year.LargestIn(4, 350))
	assert.Equal(t, 0.9, year.LargestIn(3, 3))
}
