package chart

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// distance is how far a point lies from a curve, found by walking along it.
func distance(p pt, c curve) float64 {
	best, n := math.Inf(1), 400*len(c.cubics)
	for i := range n + 1 {
		best = min(best, c.at(float64(i)/float64(n)).minus(p).length())
	}
	return best
}

// However a shape is drawn, fewer curves stay within the distance asked for, begin and end where the
// old ones did, and are no more than they were.
func TestFewerCurvesStayNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "n")
		var points []pt
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			r := rapid.Float64Range(3, 10).Draw(t, "r")
			points = append(points, pt{r * math.Cos(a), r * math.Sin(a)})
		}
		old := through(rapid.Bool().Draw(t, "closed"), points...)
		const within = 0.05
		c := old.fewer(within)
		assert.Equal(t, old.start, c.start)
		assert.Equal(t, old.end(), c.end())
		assert.Equal(t, old.closed, c.closed)
		assert.LessOrEqual(t, len(c.cubics), len(old.cubics))
		for i := range 60 {
			p := old.at(float64(i) / 60)
			assert.Less(t, distance(p, c), 1.5*within)
		}
	})
}

// A circle laid through many points comes out of it in few curves, and round; corners and straight lines stay.
func TestFewerCurvesOfACircle(t *testing.T) {
	var points []pt
	for i := range 24 {
		a := 2 * math.Pi * float64(i) / 24
		points = append(points, pt{5 * math.Cos(a), 5 * math.Sin(a)})
	}
	c := through(true, points...).fewer(0.02)
	assert.LessOrEqual(t, len(c.cubics), 6)
	for i := range 100 {
		assert.InDelta(t, 5, c.at(float64(i)/100).length(), 0.04)
	}
	square := line(pt{0, 0}, pt{1, 0}, pt{1, 1}, pt{0, 1})
	assert.Equal(t, square, square.fewer(0.05))
}
