package tying

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What rules of waters call a dry fly, a nymph and a wet fly (common practice, no source): a water of dry fly and nymph
// allows no sunk pupa and no winged fly fished below.
func TestWhatTheRulesOfAWaterAllow(t *testing.T) {
	dryAndNymph := []Method{DryFly, NymphFly}
	for _, c := range []struct {
		name    string
		stage   string
		noFly   bool
		levels  []Level
		methods []Method
		allowed bool
	}{
		{"floating dun", Dun, false, []Level{Surface}, dryAndNymph, true},
		{"emerger in the film", Dun, false, []Level{Film}, dryAndNymph, true},
		{"spent spinner", Spinner, false, []Level{Film, Surface}, dryAndNymph, true},
		{"sunk dun", Dun, false, []Level{Midwater, Film}, dryAndNymph, false},
		{"sunk spinner", Spinner, false, []Level{Bottom, Midwater}, dryAndNymph, false},
		{"rising pupa", "pupa", false, []Level{Midwater, Film}, dryAndNymph, false},
		{"pupa in the film alone", "pupa", false, []Level{Film}, dryAndNymph, true},
		{"nymph", "nymph", false, []Level{Bottom}, dryAndNymph, true},
		{"caseless larva", "larva", false, []Level{Bottom}, dryAndNymph, true},
		{"shrimp", Adult, true, []Level{Bottom}, dryAndNymph, true},
		{"nymph on a dry-fly water", "nymph", false, []Level{Bottom, Midwater}, []Method{DryFly}, false},
		{"floated or drowned", Adult, false, []Level{Midwater, Surface}, dryAndNymph, true},
		{"sunk, all allowed", Dun, false, []Level{Midwater}, nil, true},
		{"wet fly alone", Dun, false, []Level{Surface}, []Method{WetFly}, false},
		{"not known where it is fished", Dun, false, nil, dryAndNymph, true},
	} {
		n := Natural{Fly: "f", Stage: c.stage, NoFly: c.noFly, Methods: c.methods, Length: 8}
		d := Dressing{Name: "d", Levels: c.levels, Hooks: []Hook{{"m", "14", 52, 8}}, For: []StandsFor{{Flies: []string{"f"}}}}
		a := Consider(n, []Dressing{d}, Defaults())
		assert.Equal(t, c.allowed, len(a.Offered) == 1, c.name)
		assert.Equal(t, !c.allowed, a.Barred(), c.name)
		if !c.allowed {
			assert.Equal(t, []Reason{{Code: NotAllowed}}, a.RuledOut[0].Reasons, c.name)
		}
	}
	far := Dressing{Name: "d", Levels: []Level{Midwater}, Hooks: []Hook{{"m", "4", 70, 20}}, For: []StandsFor{{Flies: []string{"f"}}}}
	assert.False(t, Consider(Natural{Fly: "f", Stage: Dun, Methods: dryAndNymph, Length: 8}, []Dressing{far}, Defaults()).Barred(),
		"one that is too large as well isn't kept from anybody by the rules")
	assert.False(t, Consider(Natural{Fly: "f", Stage: Dun, Methods: dryAndNymph}, nil, Defaults()).Barred(), "an empty box")
}
