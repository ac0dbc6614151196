package figures

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/species/tying"
)

// A dressing that names the fly but in no size comes near it is not what to tie on, where there is
// room for no reasons; one whose size is not known may be.
func TestShortListLeavesOutWhatIsFarTooLarge(t *testing.T) {
	named := tying.NamedPart{By: tying.ByFly}
	s := StageDressings{Advice: tying.Advice{Offered: []tying.Offer{
		{Name: "unnamed", Score: 99},
		{Name: "far too long", Score: 60, Size: &tying.SizePart{Longer: 4.6}, Named: named},
		{Name: "near", Score: 50, Size: &tying.SizePart{Part: tying.Part{Value: 0.1}}, Named: named},
		{Name: "no size known", Score: 40, Named: named},
		{Name: "third", Score: 30, Named: named},
	}}}
	var names []string
	for _, o := range s.Short(2) {
		names = append(names, o.Name)
	}
	assert.Equal(t, []string{"near", "no size known"}, names)
	assert.Len(t, s.Named(), 3, "nor does a trip count it")
}
