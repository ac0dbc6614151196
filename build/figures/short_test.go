package figures

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/species/tying"
)

// Where there is room for no reasons only dressings that name the fly or its group stand.
func TestShortListHoldsWhatNamesTheFly(t *testing.T) {
	named := tying.NamedPart{By: tying.ByFly}
	s := StageDressings{Advice: tying.Advice{Offered: []tying.Offer{
		{Name: "unnamed", Score: 99},
		{Name: "near", Score: 50, Named: named},
		{Name: "no size known", Score: 40, Named: named},
		{Name: "third", Score: 30, Named: named},
	}}}
	var names []string
	for _, o := range s.Short(2) {
		names = append(names, o.Name)
	}
	assert.Equal(t, []string{"near", "no size known"}, names)
	assert.Len(t, s.Short(9), 3)
}
