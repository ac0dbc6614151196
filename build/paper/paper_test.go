package paper

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/trial"
	"guidegen/build/view"
	"guidegen/content/demo"
	"guidegen/species"
	"guidegen/species/tying"
)

// What is printed holds in every year.
func TestALawsDayInPrint(t *testing.T) {
	book, err := trial.Book(trial.OneFly())
	require.NoError(t, err)
	p := newPrinter(t, book)
	for _, c := range []struct{ open, shut, want string }{
		{"29 Feb", "30 Sep", "Trout: 29 February or 1 March to 30 September; closed 1 October to 28 February"},
		{"1 Mar", "30 Sep", "Trout: 1 March to 30 September; closed 1 October to 28 or 29 February"},
		{"1 Oct", "28 Feb", "Trout: 1 October to 28 February; closed 29 February or 1 March to 30 September"},
		{"1 Oct", "Feb", "Trout: 1 October to 28 or 29 February; closed 1 March to 30 September"},
		{"1 Mar", "28 Feb", "Trout: no close season in the guide."},
	} {
		g := trial.OneFly()
		g["rivers/beck.yaml"] = trial.File(string(g["rivers/beck.yaml"].Data) + fmt.Sprintf("seasons: {fish: trout, open: %s, close: %s}\n", c.open, c.shut))
		b, err := trial.Book(g)
		require.NoError(t, err)
		assert.Equal(t, c.want, p.paperSeasons(b.Waters[0])[0].Text)
	}
}

// An outline is as long as the length that the hook goes by: this water's median with five
// measured or more, else all waters', else the middle of the account's.
func TestOutlinesAreAsLongAsTheFly(t *testing.T) {
	book := demoBook()
	p := newPrinter(t, book)
	from := map[string]int{}
	for _, w := range book.Waters {
		for _, r := range w.Rows {
			for _, s := range toOutline(r.Fly, r.Sizes) {
				o, ok := p.outline("x.html", r.Fly, s)
				require.True(t, ok, "%s on %s is not drawn", r.Fly.Name.S, w.Name.S)
				want := 0.0
				account, _ := s.Account.First()
				switch {
				case s.N >= 5 && s.Hook.From == figures.FromWater:
					want = s.Median
				case s.Hook.From == figures.FromAccount:
					want = float64(account.Value.Low+account.Value.High) / 2
				default:
					want = p.Album.Drawn(r.Fly, s.Stage, s.Hook)
				}
				assert.InDelta(t, want, o.Length.Value(), 1e-9)
				assert.GreaterOrEqual(t, o.wide, want, "the picture is narrower than the fly")
				from[s.Hook.From]++
			}
		}
	}
	assert.Positive(t, from[figures.FromWater])
	assert.Positive(t, from[figures.FromAccount])
}

// The card of a water whose rules are as short as most clubs' has them in full, as its page does, and each
// fly of its year in the table of hours and sizes.
func TestCardHasRulesAndEveryFly(t *testing.T) {
	book := demoBook()
	p := newPrinter(t, book)
	for _, w := range book.Waters {
		m := cardPrinter{p, "card/x.html", w}.page()
		require.NotEmpty(t, w.Rules.S)
		assert.Equal(t, w.Rules.S, m.Cover.Rules)
		html, err := p.Draw("card", m)
		require.NoError(t, err)
		assert.True(t, strings.Contains(string(html), "</b> "+w.Rules.S+"</p>"), w.Name.S)
		year, hours := []string{}, map[string]bool{}
		for _, panel := range m.Panels {
			if panel.Strips != nil {
				for _, s := range panel.Strips.Years {
					year = append(year, s.Fly)
				}
			}
			for _, r := range panel.Rows {
				hours[r.Fly.Text] = true
			}
		}
		require.Len(t, year, len(w.Rows))
		for i, r := range w.Rows {
			assert.Equal(t, r.Fly.Name.S, year[i], w.Name.S)
			assert.True(t, hours[r.Fly.Name.S], "%s on %s has no row", r.Fly.Name.S, w.Name.S)
		}
	}
}

// Panels take whole items as long as they have room, and one at least.
func TestInPanels(t *testing.T) {
	high := func(x int) float64 { return float64(x) }
	for _, c := range []struct {
		items []int
		want  [][]int
	}{
		{nil, nil},
		{[]int{4, 4, 2}, [][]int{{4, 4, 2}}},
		{[]int{4, 4, 3}, [][]int{{4, 4}, {3}}},
		{[]int{12, 1}, [][]int{{12}, {1}}},
		{[]int{1, 12, 1}, [][]int{{1}, {12}, {1}}},
		{[]int{6, 6, 6}, [][]int{{6}, {6}, {6}}},
	} {
		assert.Equal(t, c.want, inPanels(c.items, 10, high), c.items)
	}
}

func TestLinesOf(t *testing.T) {
	for text, want := range map[string]int{"": 1, "ten": 1, "one two three": 2, "abcdefghijklmnop": 2, "a b c d e f g": 2, "twelve chars": 2} {
		assert.Equal(t, want, linesOf(text, 10), text)
	}
}

// A half-month that nobody looked in is never worded as one that was looked in.
func TestStripsSayWhatTheFiguresSay(t *testing.T) {
	book := demoBook()
	p := newPrinter(t, book)
	for _, w := range book.Waters {
		for _, r := range w.Rows {
			v := p.strip(r)
			any := map[figures.CellState]bool{}
			for _, c := range r.Cells {
				any[c.State] = true
			}
			for state, word := range map[figures.CellState]string{figures.CellUnlooked: "nobody looked", figures.CellLooked: "looked for, not found", figures.CellFound: "found here"} {
				assert.Equal(t, any[state], strings.Contains(v.Words, word), "%s on %s: %s", r.Fly.Name.S, w.Name.S, word)
			}
		}
	}
}

// A QR code holds exactly the address beside it; without an address there is none.
func TestWebAddress(t *testing.T) {
	book := demoBook()
	p := newPrinter(t, book)
	assert.Empty(t, p.webAddress(view.FrontPage).QR)
	book.Edition.Settings.Address = "https://flies.example/"
	v := p.webAddress(view.WaterPage(book.Waters[0]))
	assert.Equal(t, "https://flies.example/"+view.WaterPage(book.Waters[0]), v.Text)
	assert.Equal(t, v.Text, strings.Join(v.Parts, ""))
	assert.Contains(t, string(v.QR), "<path")
	assert.NotContains(t, string(v.QR), "style=")
	assert.Empty(t, qr(strings.Repeat("x", 4000), "too long")) // ISO/IEC 18004: 2331 bytes at most at level M
}

// The head of a water's lengths names the unit that they are in, on its card.
func TestCardNamesItsUnit(t *testing.T) {
	for _, unit := range []string{"mm", "in", "cm"} {
		book := demoBook()
		edition, whole := *book.Edition, *book.Edition.Guide
		whole.Settings.Units = guide.Units{Length: unit}
		edition.Guide = &whole
		b := *book
		b.Edition = &edition
		p := newPrinter(t, &b)
		html, err := p.Draw("card", cardPrinter{p, "card/x.html", b.Waters[0]}.page())
		require.NoError(t, err)
		assert.True(t, strings.Contains(string(html), `<th scope="col" class="n">`+unit+`</th>`), unit)
	}
}

// The card's levels are those that dressings are chosen by, and a stage for which the box has nothing stands there
// beside those for which it has; a water whose finds lie too far apart for a length says so.
func TestCardSpeaksOfTheBoxAsPagesDo(t *testing.T) {
	files := fstest.MapFS{} // the demo without its nymphs
	require.NoError(t, fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && path.Base(name) != "nymphs.yaml" {
			b, _ := fs.ReadFile(demo.FS, name)
			files[name] = &fstest.MapFile{Data: b}
		}
		return err
	}))
	book, err := trial.Book(files)
	require.NoError(t, err)
	p := newPrinter(t, book)
	none, under, torn := 0, 0, 0
	for _, w := range book.Waters {
		said := ""
		for _, panel := range (cardPrinter{p, "card/x.html", w}).stagePanels() {
			said += strings.Join(panel.Under, " ")
		}
		for _, r := range w.Rows {
			any := slices.ContainsFunc(r.Dressings, func(d figures.StageDressings) bool { return len(d.Named())+len(d.Advice.NotScored) > 0 })
			rows := p.tieRows(r)
			assert.Equal(t, any, len(rows) > 0, "%s on %s", r.Fly.Name.S, w.Name.S)
			for _, d := range r.Dressings {
				var want []string
				for _, l := range d.Natural {
					want = append(want, p.words.Or("level", l.String()))
				}
				i := slices.IndexFunc(rows, func(x PaperRow) bool {
					return x.stage == d.Stage && (x.sex == d.Sex || x.sex == species.NoSex) && (x.flight == d.Flight || x.flight == "")
				})
				if !any {
					continue
				}
				require.GreaterOrEqual(t, i, 0, "%s %s on %s", r.Fly.Name.S, d.Stage, w.Name.S)
				assert.Equal(t, p.words.List(want), rows[i].Level, "%s %s on %s", r.Fly.Name.S, d.Stage, w.Name.S)
				assert.Equal(t, len(d.Named())+len(d.Advice.NotScored) == 0, len(rows[i].Ties) == 0)
				if len(rows[i].Ties) == 0 {
					none++
				}
				if d.Stage == species.Spinner && slices.Contains(d.Natural, tying.Bottom) {
					under++
				}
				if d.Stage.OnTheWing() && d.Length.Torn {
					torn++
					assert.Contains(t, said, r.Fly.Name.S)
					assert.Contains(t, said, "over a long season")
				}
			}
		}
	}
	assert.Positive(t, none)
	assert.Positive(t, under)
	assert.Positive(t, torn)
}
