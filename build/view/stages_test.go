package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/lang"
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
