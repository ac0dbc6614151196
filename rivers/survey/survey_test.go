package survey

import (
	"testing"

	"github.com/stretchr/testify/assert"
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
