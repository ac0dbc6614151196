package page

// That nothing is expected where nobody looked is never said as if records said it.

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"guidegen/build/view"
	"guidegen/content/calendar"
)

func TestNothingExpectedWhereNobodyLooked(t *testing.T) {
	book := demoBook()
	pages := drawAll(t, book)
	both := map[bool]int{}
	for _, w := range book.Waters {
		doc, err := html.ParseWithOptions(strings.NewReader(pages[view.WaterPage(w)]), html.ParseOptionEnableScripting(false))
		require.NoError(t, err)
		listed := ""
		walk(doc, func(n *html.Node) {
			if v, ok := attr(n, "data-unlooked"); ok {
				listed = " " + v + " "
			}
		})
		walk(doc, func(n *html.Node) {
			name, ok := attr(n, "data-cell")
			if !ok {
				return
			}
			looked := false
			for c := calendar.Cell(0); c < calendar.Cells; c++ {
				looked = looked || c.String() == name && len(w.Coverage.Cells[c]) > 0
			}
			assert.Equal(t, !looked, strings.Contains(listed, " "+name+" "), "%s %s", w.Name.S, name)
			if text := textOf(n); strings.Contains(text, "none expected") {
				both[looked]++
				assert.Equal(t, !looked, strings.Contains(text, "nobody looked"), "%s %s", w.Name.S, name)
			}
		})
	}
	assert.Positive(t, both[true])
	assert.Positive(t, both[false])
}
