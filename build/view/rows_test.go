package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
)

// Figures and the sentence each is printed as: a sign turned round would be a false sentence.
func TestFiguresAsSentences(t *testing.T) {
	book := bookOf(t, oneFly())
	p, err := NewPrinter(book, Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	for _, c := range []struct {
		flight     figures.FlightHere
		moved, why string
	}{
		{figures.FlightHere{Shift: 9, Rule: "warmth", HasWarmer: true, Warmer: -1.5}, "9 days later than the account", "1.5\u00a0°C colder"},
		{figures.FlightHere{Shift: -9, Rule: "warmth", HasWarmer: true, Warmer: 1.5}, "9 days earlier than the account", "1.5\u00a0°C warmer"},
		{figures.FlightHere{Own: true, Shift: 9}, "The water's own dates", ""},
		{figures.FlightHere{}, "As the account gives it", ""},
	} {
		moved, _, why := p.moved(c.flight)
		assert.Equal(t, c.moved, moved)
		assert.Contains(t, why, c.why)
		if c.why == "" {
			assert.Empty(t, why)
		}
	}
}
