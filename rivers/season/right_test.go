package season

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestHowRightByHand(t *testing.T) {
	c := Defaults()
	p := Flat(0.5)
	// One visit a year on one day: found, found, empty. Left out in turn, the
	// other two give (1.5+1)/5, (1.5+1)/5 and (1.5+2)/5.
	own := append(found(on(2023, 6, 1), on(2024, 6, 1)), empty(on(2025, 6, 1))...)
	r := HowRight([]Tried{{P: &p, Own: own}}, c)
	assert.True(t, r.Tell)
	assert.Equal(t, []int{3, 3}, []int{r.Years, r.N})
	assert.InDelta(t, (0.25+0.25+0.49)/3, r.Brier, 1e-12)
	assert.InDelta(t, 0.25, r.Account, 1e-12)
	assert.Equal(t, [4]Band{{0, 0.1, 0, 0}, {0.1, 0.3, 0, 0}, {0.3, 0.6, 2, 2}, {0.6, 1, 1, 0}}, r.Bands)

	assert.False(t, HowRight([]Tried{{P: &p, Own: own[:2]}}, c).Tell, "two years")
	q := Flat(0.2)
	two := HowRight([]Tried{{P: &p, Own: own[:2]}, {P: &q, Own: own[2:]}}, c)
	assert.True(t, two.Tell, "the years are the water's, not one fly's")
	assert.Equal(t, 3, two.N)
}

func TestLeftOutMeansLentOnesToo(t *testing.T) {
	c := Defaults()
	p := Flat(0.5)
	own := found(on(2023, 6, 1), on(2024, 6, 1), on(2025, 6, 1))
	lent := []Lent{{Day: day(6, 1), Year: 2025, Season: 2025, Found: true, Worth: 1}}
	r := HowRight([]Tried{{P: &p, Own: own, Lent: lent}}, c)
	a, b := 1-(1.5+2.25)/5.25, 1-3.5/5
	assert.InDelta(t, (2*a*a+b*b)/3, r.Brier, 1e-12)
}

func TestBands(t *testing.T) {
	r := HowRight(nil, Defaults())
	for i, chances := range [][]float64{{0, 0.0999}, {0.1, 0.1 - 1e-12, 0.2999}, {0.3, 0.5999}, {0.6, 1}} {
		for _, x := range chances {
			assert.Same(t, &r.Bands[i], r.band(x), "%v", x)
		}
	}
}

func TestHowRightAgainstReckoning(t *testing.T) {
	// The short way through gather must say what Reckon says without the year.
	c := Defaults()
	rapid.Check(t, func(t *rapid.T) {
		fs, own, lent := drawWater(t, c)
		p := Expected(fs, c)
		got := HowRight([]Tried{{P: &p, Own: own, Lent: lent}}, c)
		if !got.Tell {
			assert.Equal(t, 0, got.N)
			return
		}
		var sum float64
		for _, v := range own {
			var rest []Visit
			var restLent []Lent
			for _, o := range own {
				if o.season() != v.season() {
					rest = append(rest, o)
				}
			}
			for _, o := range lent {
				if o.Season != v.season() {
					restLent = append(restLent, o)
				}
			}
			x := Reckon(&p, rest, restLent, c).Chance.At(v.day())
			if v.Found {
				x = 1 - x
			}
			sum += x * x
		}
		assert.Equal(t, len(own), got.N)
		assert.InDelta(t, sum/float64(len(own)), got.Brier, 1e-9)
		again := append([]Visit(nil), own...)
		rand.New(rand.NewPCG(1, 1)).Shuffle(len(again), func(i, j int) { again[i], again[j] = again[j], again[i] })
		assert.Equal(t, got, HowRight([]Tried{{P: &p, Own: again, Lent: lent}}, c))
	})
}
