package view

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/trial"
	"guidegen/species"
	"guidegen/species/tying"
)

// What a month's figure is based on: two thirds of own visits are most of them; fewer are half; thin evidence and
// nobody looked have marks of their own whatever the shares.
func TestBasisMarks(t *testing.T) {
	for want, m := range map[string]figures.MonthHere{
		"3": {Looked: 9, Own: 2.0 / 3}, "2": {Looked: 9, Own: 0.66}, "1": {Looked: 2, Own: 0.9, Thin: true}, "0": {Own: 0.8},
	} {
		assert.Equal(t, want, BasisMark(&m))
	}
}

// Every pair of state and tendency that the kernel can give has words: a pair without them lost a fly from its page.
func TestEveryStateOfADayHasWords(t *testing.T) {
	words, err := lang.LoadWords("en")
	require.NoError(t, err)
	seen := map[int]bool{}
	for _, state := range []figures.OnState{figures.On, figures.Starting, figures.JustOver, figures.BetweenFlights} {
		for _, tendency := range []figures.Tendency{figures.NoTendency, figures.Rising, figures.Steady, figures.Fading, figures.BetweenTwo} {
			if state != figures.On && tendency != figures.NoTendency {
				continue
			}
			i := StateOf(figures.Run{State: state, Tendency: tendency})
			require.False(t, seen[i], "%s, %s", state, tendency)
			seen[i] = true
			require.NotEmpty(t, words.Plain("on_state."+OnStates[i].Key))
		}
	}
	require.Equal(t, -1, StateOf(figures.Run{}))
	require.Panics(t, func() { StateOf(figures.Run{State: figures.On, Tendency: "soon"}) })
}

// Two dressings of a stage: the best and the next; of a fly on the wing the next fished otherwise. Those of the best
// class go before those that can't be scored.
func TestTies(t *testing.T) {
	box := "box:\n"
	for _, d := range []string{"Top one, surface", "Top two, surface", "Film three, film", "Deep four, \"[midwater, bottom]\"", "Both five, \"[surface, midwater]\""} {
		name, level, _ := strings.Cut(d, ", ")
		box += "  - {name: " + name + ", fishes: " + strings.Trim(level, `"`) + ", stands_for: {flies: [Twice olive], stage: dun}}\n"
	}
	files := trial.TwoFlights()
	files["dressings/box.yaml"] = trial.File(box)
	book, err := trial.Book(files)
	require.NoError(t, err)
	p := &Printer{book: book}
	for _, c := range []struct {
		stage         species.Stage
		offered, only []string
		want          []string
	}{
		{species.Dun, []string{"Top one", "Top two", "Film three", "Deep four"}, nil, []string{"Top one", "Deep four"}},
		{species.Dun, []string{"Deep four", "Top two", "Top one"}, nil, []string{"Deep four", "Top two"}},
		{species.Nymph, []string{"Top one", "Top two", "Deep four"}, nil, []string{"Top one", "Top two"}},
		{species.Dun, []string{"Top one", "Top two", "Both five"}, nil, []string{"Top one", "Top two"}},
		{species.Dun, []string{"Top one", "Film three", "Top two"}, nil, []string{"Top one", "Film three"}}, // none otherwise: the next
		{species.Dun, []string{"Top one", "Top two"}, []string{"Deep four"}, []string{"Top one", "Deep four"}},
		{species.Dun, []string{"Top one"}, []string{"Top two"}, []string{"Top one", "Top two"}},
		{species.Dun, nil, nil, nil},
	} {
		sd := figures.StageDressings{Stage: c.stage}
		for _, name := range c.offered {
			sd.Advice.Offered = append(sd.Advice.Offered, tying.Offer{Name: name, Named: tying.NamedPart{By: tying.ByFly}})
		}
		for _, name := range c.only {
			sd.Advice.NotScored = append(sd.Advice.NotScored, tying.NamedOnly{Name: name, By: tying.ByFly})
		}
		var got []string
		for _, tie := range p.Ties(sd) {
			got = append(got, tie.Name)
			assert.Equal(t, slices.Contains(c.only, tie.Name), tie.Offer == nil, tie.Name)
		}
		assert.Equal(t, c.want, got, "%s %v", c.stage, c.offered)
	}
}
