package figures

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guidegen/species/tying"
)

// A short list holds the best class alone: what is tied for the fly, else for its group, else for its kin.
func TestShortListHoldsTheBestClass(t *testing.T) {
	offer := func(name string, score float64, by tying.By) tying.Offer {
		return tying.Offer{Name: name, Score: score, Named: tying.NamedPart{By: by}}
	}
	own, second, group, kin := offer("own", 40, tying.ByFly), offer("second", 30, tying.ByFly), offer("group", 90, tying.ByGroup), offer("kin", 95, tying.ByKin)
	for _, c := range []struct {
		offered []tying.Offer
		want    []string
	}{
		{[]tying.Offer{own, second, group, kin}, []string{"own", "second"}},
		{[]tying.Offer{group, kin}, []string{"group"}},
		{[]tying.Offer{kin}, []string{"kin"}},
		{nil, nil},
	} {
		var names []string
		for _, o := range (StageDressings{Advice: tying.Advice{Offered: c.offered}}).Named() {
			names = append(names, o.Name)
		}
		assert.Equal(t, c.want, names)
	}
}
