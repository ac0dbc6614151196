package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/guide"
)

// The head of a water's lengths names the unit that they are in.
func TestSizesNameTheirUnit(t *testing.T) {
	for _, unit := range []string{"mm", "in", "cm"} {
		book := demoBook()
		edition, whole := *book.Edition, *book.Edition.Guide
		whole.Settings.Units = guide.Units{Length: unit}
		edition.Guide = &whole
		b := *book
		b.Edition = &edition
		p, err := NewPrinter(&b, Deps{Site: fakeSite{&b}})
		require.NoError(t, err)
		m, err := p.river(b.Waters[0])
		require.NoError(t, err)
		html, err := p.draw("river", m)
		require.NoError(t, err)
		assert.True(t, strings.Contains(string(html), `<th scope="col">`+unit+`</th><th scope="col">n</th>`), unit)
	}
}
