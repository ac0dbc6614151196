package view

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A drawing says to what length it is drawn and whose length that is; those of a page are at one scale.
func TestDrawingsSayWhoseLengthTheyHave(t *testing.T) {
	book := demoBook()
	p, err := NewPrinter(book, Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	from := map[string]int{}
	for _, f := range book.Flies {
		perMM := 0.0
		for _, d := range p.Drawings("species/x.html", f) {
			require.True(t, d.Length.Known(), "%s, %s", f.Name.S, d.Caption)
			assert.NotEmpty(t, d.From)
			from[d.From]++
			width, err := strconv.ParseFloat(d.Width, 64)
			require.NoError(t, err)
			assert.LessOrEqual(t, width, float64(drawnWide))
			if perMM == 0 {
				perMM = width / d.wide
			}
			assert.InDelta(t, perMM*d.wide, width, 2, "%s: %s", f.Name.S, d.Caption)
		}
	}
	assert.Greater(t, len(from), 1)
}
