package page

// The year of a water's page, and of a fly's, against the figures.

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"guidegen/build/figures"
	"guidegen/build/view"
)

var countedOn = regexp.MustCompile(`found on (\d+) of (\d+) visit|looked for on (\d+) visit`)

// The year of a water's page and of a fly's page say what the figures say, month by month; the fly's page says too what
// each month's chance is based on.
func TestTheYearSaysWhatTheFiguresSay(t *testing.T) {
	book := demoBook()
	docs := map[string]*html.Node{}
	for address, text := range drawAll(t, book) {
		doc, err := html.Parse(strings.NewReader(text))
		require.NoError(t, err)
		docs[address] = doc
	}
	cells := func(address, id string) (out []*html.Node) {
		walk(docs[address], func(n *html.Node) {
			if v, _ := attr(n, "id"); v == id {
				out = all(n, atom.Td)
			}
		})
		require.Len(t, out, 12, "%s %s", address, id)
		return out
	}
	rows, thin, based := 0, 0, 0
	for _, w := range book.Waters {
		for i, r := range w.Rows {
			rows++
			for m, share := range sharesOf(t, docs[view.FlyPage(r.Fly)], w.Name.S) {
				for k, v := range []float64{r.Months[m].Own, r.Months[m].Lent, r.Months[m].Rest} {
					assert.InDelta(t, 100*v, share[k], 0.6, "%s, %s, month %d", w.Name.S, r.Fly.Name.S, m+1)
				}
				based++
			}
			onWater, onFly := cells(view.WaterPage(w), view.FlyID("fly", i)), cells(view.FlyPage(r.Fly), view.FlyID("bars", slices.Index(r.Fly.Rows, r)))
			for m := range r.Months {
				where := fmt.Sprintf("%s, %s, month %d", w.Name.S, r.Fly.Name.S, m+1)
				reading, whole := textOf(find(onWater[m], atom.Span)), textOf(find(onFly[m], atom.Span))
				assert.Equal(t, reading, whole, where)
				want := r.Months[m]
				if found := countedOn.FindStringSubmatch(reading); want.Looked > 0 {
					require.NotNil(t, found, "%s: %s", where, reading)
					if found[3] != "" {
						found[1], found[2] = "0", found[3]
					}
					assert.Equal(t, fmt.Sprint(want.Found, " of ", want.Looked), found[1]+" of "+found[2], where)
				} else {
					assert.Nil(t, found, where)
					assert.Contains(t, reading, "nobody looked", where)
				}
				if short := strings.TrimSuffix(textOf(onWater[m]), reading); short != "" && short != "·" {
					percent, err := strconv.ParseFloat(short, 64)
					require.NoError(t, err)
					assert.InDelta(t, 100*want.Chance, percent, 0.5000001, where)
				} else if want.State != figures.NotExpected { // under one per cent a dot stands
					assert.Less(t, want.Chance, 0.005, where)
					assert.Contains(t, textOf(onWater[m]), "·")
				}
				if strings.Contains(reading, "thin evidence") {
					assert.True(t, want.Thin, where)
					thin++
				}
			}
		}
	}
	assert.Positive(t, rows)
	assert.Positive(t, thin)
	assert.Greater(t, based, rows)
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

// sharesOf are what each month's chance on a water is based on, from the table of a fly's page: own visits, lent ones and
// the account, in per cent.
func sharesOf(t *testing.T, doc *html.Node, water string) map[int][3]float64 {
	out := map[int][3]float64{}
	walk(doc, func(n *html.Node) {
		if n.DataAtom != atom.Tr || n.Parent == nil || n.Parent.DataAtom != atom.Tbody {
			return
		}
		cells := all(n, atom.Td)
		if th := find(n, atom.Th); th == nil || textOf(th) != water || len(cells) != 6 {
			return
		}
		for _, m := range regexp.MustCompile(`(\w{3}) (\d+)/(\d+)/(\d+)`).FindAllStringSubmatch(textOf(cells[4]), -1) {
			month, err := time.Parse("Jan", m[1])
			require.NoError(t, err)
			var share [3]float64
			for k := range share {
				share[k], _ = strconv.ParseFloat(m[k+2], 64)
			}
			out[int(month.Month())-1] = share
		}
	})
	return out
}
