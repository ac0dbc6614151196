package survey

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/content/calendar"
)

// Worked by hand from the bias-corrected form of Chao 1987: ten visits, four
// species, two of them found once and one twice:
// 4 + (9/10) · 2·1 / (2·(1+1)) = 4.45.
func TestChao2(t *testing.T) {
	r := Chao2([]int{1, 1, 2, 3, 0}, 10)
	assert.Equal(t, 4, r.Found)
	assert.InDelta(t, 4.45, r.Expected, 1e-12)
	assert.Positive(t, r.StdErr)
	assert.False(t, Chao2([]int{1}, 1).Known, "one visit tells nothing of what was missed")
}

func TestBestCells(t *testing.T) {
	var visits [calendar.Cells]int
	var weight [calendar.Cells]float64
	weight[3], weight[4], weight[5] = 2, 2, 1
	visits[3] = 3
	assert.Equal(t, []calendar.Cell{4, 5, 3}, Best(visits, weight))
}
