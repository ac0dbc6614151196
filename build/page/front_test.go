package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"guidegen/build/view"
)

// Who reads no further than the front page learns there that a season was not checked for more than a year,
// or never, whether the water is open or not; a season checked lately takes no line.
func TestFrontPageSaysThatASeasonIsStale(t *testing.T) {
	files := oneFly()
	files["rivers/beck.yaml"] = file("name: Beck\nkind: rain-fed\ntime_zone: Europe/London\nflies:\n  Lone dun: frequent\nseasons:\n" +
		"  - {fish: trout, open: 15 Mar, close: 30 Sep, checked: 2024-12-01}\n" +
		"  - {fish: grayling, open: 16 Jun, close: 14 Mar, checked: 2026-05-01}\n" +
		"  - {fish: pike, open: 1 Oct, close: 14 Mar}\n")
	doc, err := html.Parse(strings.NewReader(drawAll(t, bookOf(t, files))[view.FrontPage]))
	require.NoError(t, err)
	var law []string
	walk(doc, func(n *html.Node) {
		if class, _ := attr(n, "class"); class == "season" {
			law = append(law, strings.Join(strings.Fields(textOf(n)), " "))
			for up := n.Parent; up != nil; up = up.Parent {
				assert.NotEqual(t, atom.Details, up.DataAtom, "outside the fold")
				_, hidden := attr(up, "hidden")
				assert.False(t, hidden)
			}
		}
	})
	require.Len(t, law, 3)
	assert.Contains(t, law[0], "(checked 1 December 2024: check again)")
	assert.NotContains(t, law[1], "check again")
	assert.Contains(t, law[2], "never checked; ask before you fish")
}
