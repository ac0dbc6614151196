package page

// A water's page gathers in one table what the flies' pages take apart month by month.

import (
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// monthFigures is a month's chance as the page gives it to machines, and "found/looked"; both "" where there is none.
type monthFigures struct{ chance, counted string }

func TestOneTableSaysWhatTheFliesPagesSay(t *testing.T) {
	docs := map[string]*html.Node{}
	for address, text := range drawAll(t, demoBook()) {
		doc, err := html.Parse(strings.NewReader(text))
		require.NoError(t, err)
		docs[address] = doc
	}
	rows, thin := 0, 0
	for address, doc := range docs {
		if !strings.HasPrefix(address, "rivers/") {
			continue
		}
		walk(doc, func(n *html.Node) {
			if class, _ := attr(n, "class"); n.DataAtom != atom.Table || class != "grid by-months" {
				return
			}
			for _, row := range all(find(n, atom.Tbody), atom.Tr) {
				href, _ := attr(find(row, atom.A), "href")
				page, id, _ := strings.Cut(path.Join("rivers", href), "#")
				require.Contains(t, docs, page)
				want := takenApart(t, docs[page], id)
				cells := all(row, atom.Td)
				require.Len(t, cells, 12)
				for i, c := range cells {
					got := monthFigures{counted: regexp.MustCompile(`\d+/\d+`).FindString(textOf(c))}
					if d := find(c, atom.Data); d != nil {
						got.chance, _ = attr(d, "value")
					}
					assert.Equal(t, want[i], got, "%s, %s, month %d", address, textOf(find(row, atom.A)), i+1)
					if class, _ := attr(c, "class"); class == "thin" {
						assert.Contains(t, textOf(c), "thin")
						thin++
					}
				}
				assert.Contains(t, textOf(find(row, atom.Th)), "Rests on ")
				rows++
			}
		})
	}
	assert.Positive(t, rows)
	assert.Positive(t, thin)
}

// takenApart reads a fly's table of months on one water from the fly's own page.
func takenApart(t *testing.T, doc *html.Node, id string) (out []monthFigures) {
	walk(doc, func(n *html.Node) {
		if v, _ := attr(n, "id"); v != id {
			return
		}
		for _, row := range all(find(n, atom.Tbody), atom.Tr) {
			var m monthFigures
			for _, cell := range all(row, atom.Td) {
				data := all(cell, atom.Data)
				switch {
				case strings.HasPrefix(textOf(cell), "found on"):
					m.counted = textOf(data[0]) + "/" + textOf(data[1])
				case m.chance == "" && len(data) == 1:
					m.chance, _ = attr(data[0], "value")
				}
			}
			out = append(out, m)
		}
	})
	require.Len(t, out, 12, id)
	return out
}

// all finds elements in a part of a page, in order.
func all(n *html.Node, a atom.Atom) (out []*html.Node) {
	walk(n, func(x *html.Node) {
		if x.DataAtom == a && x.Type == html.ElementNode {
			out = append(out, x)
		}
	})
	return out
}
