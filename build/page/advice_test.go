package page

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/species/tying"
)

// A dressing far from the fly's length stands with its reason among those that are ruled out, and
// nowhere as an offer with nothing to its score.
func TestFarFromTheLengthIsNoOffer(t *testing.T) {
	p, err := NewPrinter(demoBook(), Deps{Site: fakeSite{}})
	require.NoError(t, err)
	assert.Equal(t, "none of its sizes comes near: 12 in Long dry is 4.6\u00a0mm too long",
		p.reason(tying.Reason{Code: tying.FarFromLength, Hook: tying.Hook{Model: "Long dry", Size: "12"}, Length: 8.3, Longer: 4.6}))
	nothing := regexp.MustCompile(`score (<data[^>]*>)?0\b`)
	ruled := 0
	for at, page := range drawAll(t, demoBook()) {
		assert.NotRegexp(t, nothing, page, at)
		ruled += len(regexp.MustCompile(`none of its sizes comes near`).FindAllString(page, -1))
	}
	assert.Positive(t, ruled)
}
