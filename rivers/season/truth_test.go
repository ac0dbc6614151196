package season

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content/calendar"
)

func TestSplitMix(t *testing.T) {
	// The reference implementation's first numbers from 1234567 (Vigna,
	// splitmix64.c; the values from memory, as widely printed).
	r := NewRand(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		assert.Equal(t, want, r.Uint64())
	}
}

func TestNormal(t *testing.T) {
	r := NewRand(7)
	const n = 200000
	var sum, square float64
	beyond := 0
	for range n {
		x := r.Normal()
		sum += x
		square += x * x
		if math.Abs(x) > 1.959964 { // the normal distribution's 5 %
			beyond++
		}
	}
	assert.InDelta(t, 0, sum/n, 0.01)
	assert.InDelta(t, 1, square/n, 0.02)
	assert.InDelta(t, 0.05, float64(beyond)/n, 0.003)
}

func TestVisitsFollowTheTruth(t *testing.T) {
	c := Defaults()
	p := Plan{Flights: twoFlights, PeakSD: 8, Factor: 1.35, YearSD: 0, Years: 3, First: 2023}
	r := NewRand(3)
	w := p.Water(r, c)
	truth := w.Truth()
	found, looked := 0, 0
	for _, v := range w.Visits(r, 20000, calendar.FirstOf(4), calendar.LastOf(4)) {
		assert.Contains(t, []int{2023, 2024, 2025}, v.Date.Year)
		looked++
		if v.Found {
			found++
		}
	}
	assert.InDelta(t, truth[3], float64(found)/float64(looked), 0.015)
	again := NewRand(3)
	assert.Equal(t, truth, p.Water(again, c).Truth(), "the same start makes the same water")
}

func TestTruthOfAWaterLikeTheAccount(t *testing.T) {
	// With no spread at all the truth is the account's own curve, unsoftened.
	c := Defaults()
	c.Softening = 0
	p := Plan{Flights: twoFlights, Factor: 1, Years: 1, First: 2023}
	truth := p.Water(NewRand(1), c).Truth()
	var account []Moved
	for _, f := range twoFlights {
		account = append(account, Move(f, Local{}, Place{}, Place{}, c))
	}
	curve := Expected(account, c)
	said := Reckon(&curve, nil, nil, c)
	for m := range truth {
		assert.InDelta(t, said.Months[m].Chance, truth[m], 1e-12)
	}
}
