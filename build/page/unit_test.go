package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/guide"
	"guidegen/build/view"
)

// The head of a water's lengths names the unit that they are in, on its page.
func TestSizesNameTheirUnit(t *testing.T) {
	for _, unit := range []string{"mm", "in", "cm"} {
		book := demoBook()
		edition, whole := *book.Edition, *book.Edition.Guide
		whole.Settings.Units = guide.Units{Length: unit}
		edition.Guide = &whole
		b := *book
		b.Edition = &edition
		p, err := NewPrinter(&b, view.Deps{Site: fakeSite{Book: &b}})
		require.NoError(t, err)
		m := p.river(b.Waters[0])
		html, err := p.Draw("river", m)
		require.NoError(t, err)
		assert.True(t, strings.Contains(string(html), `<th scope="col">`+unit+`</th><th scope="col">n</th>`), unit)
	}
}

// A water that nobody visited says so, in words, on its page and on the front page.
func TestNoVisitsAreSaid(t *testing.T) {
	book := bookOf(t, twoFlights())
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	m := p.river(book.Waters[0])
	for kind, model := range map[string]any{"river": m, "front": p.front()} {
		html, err := p.Draw(kind, model)
		require.NoError(t, err)
		assert.Contains(t, string(html), "no visits yet", kind)
		assert.NotContains(t, string(html), "0 visits", kind)
	}
}
