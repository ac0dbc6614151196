package hook

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A shank is as long as a body within 0.35 mm.
func TestAgainst(t *testing.T) {
	for off, want := range map[float64]float64{0.35: 0, 0.36: 0.36, -0.35: 0, -0.4: -0.4} {
		assert.InDelta(t, want, Against(8+off, 8), 1e-9)
	}
}

// Catalogue steps are halves: from 14 to 16 is one step, so two of them.
func TestStepsOfARange(t *testing.T) {
	sizes, err := ParseSizes("14-18")
	assert.NoError(t, err)
	r := Range{Small: sizes[len(sizes)-1], Large: sizes[0]}
	for text, want := range map[string]Steps{"12": -2, "14": 0, "16": 0, "18": 0, "20": 2} {
		s, err := ParseSizes(text)
		assert.NoError(t, err)
		assert.Equal(t, want, r.Steps(s[0]), text)
	}
}
