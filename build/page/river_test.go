package page

// A water's page says in its year what the flies' pages take apart month by month.

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// monthFigures is a month's chance as the page gives it to machines, and "found/looked"; both "" where there is none.
type monthFigures struct{ chance, counted string }

var countedOn = regexp.MustCompile(`found on (\d+) of (\d+) visit|looked for on (\d+) visit`)

// The year of a water's page says what the flies' pages take apart month by month.
func TestTheYearSaysWhatTheFliesPagesSay(t *testing.T) {
	docs := map[string]*html.Node{}
	for address, text := range drawAll(t, demoBook()) {
		doc, err := html.Parse(strings.NewReader(text))
		require.NoError(t, err)
		docs[address] = doc
	}
	book, rows, thin := demoBook(), 0, 0
	for _, w := range book.Waters {
		for i, r := range w.Rows {
			want := takenApart(t, docs[flyPage(r.Fly)], flyID("table", slices.Index(r.Fly.Rows, r)))
			walk(docs[waterPage(w)], func(n *html.Node) {
				if id, _ := attr(n, "id"); id != flyID("fly", i) {
					return
				}
				cells := all(n, atom.Td)
				require.Len(t, cells, 12)
				for m, c := range cells {
					reading := textOf(find(c, atom.Span))
					var got monthFigures
					if found := countedOn.FindStringSubmatch(reading); found != nil {
						got.counted = found[1] + "/" + found[2]
						if found[3] != "" {
							got.counted = "0/" + found[3]
						}
					}
					if d := find(c, atom.Data); d != nil {
						got.chance, _ = attr(d, "value")
					} else if want[m].chance != "" {
						want[m].chance = "" // under one per cent a dot stands
						assert.Less(t, r.Months[m].Chance, 0.005)
						assert.Contains(t, textOf(c), "·")
					}
					assert.Equal(t, want[m], got, "%s, %s, month %d", w.Name.S, r.Fly.Name.S, m+1)
					if strings.Contains(reading, "thin evidence") {
						thin++
					}
				}
				rows++
			})
		}
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
