package page

// What the reader is told, and how.

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"guidegen/build/view"
	"guidegen/content/calendar"
	"guidegen/species"
)

// A shank against a body in fractions that a dresser would say: by hand, from the ratio.
func TestFractions(t *testing.T) {
	for ratio, want := range map[float64]string{1: "agree", 1.049: "agree", 0.951: "agree", 1.06: "long_10", 1.16: "long_5", 1.24: "long_4", 1.34: "long_3",
		1.52: "long_2", 2.1: "long_1", 0.9: "short_10", 0.79: "short_5", 0.66: "short_3", 0.5: "short_2"} {
		assert.Equal(t, want, fraction(ratio), ratio)
	}
}

// Only upwinged flies are duns and spinners, and land-bred flies don't emerge from the water.
func TestWhatBarsShow(t *testing.T) {
	for g, want := range map[species.Group]string{species.Upwinged: "bars.duns_and_spinners", species.Sedge: "bars.emergence",
		species.Stonefly: "bars.emergence", species.LandBred: "bars.on_the_water"} {
		assert.Equal(t, want, barsOf(g))
	}
}

// A list that stops before enough is covered says how far it comes and why.
func TestATripListSaysWhyItStops(t *testing.T) {
	book := demoWithout(t, "dressings/duns.yaml", "dressings/nymphs.yaml")
	pages := drawAll(t, book)
	said, all := 0, 0
	for _, w := range book.Waters {
		for m := 1; m <= 12; m++ {
			trip := book.Trip(w, calendar.FirstOf(time.Month(m)), calendar.LastOf(time.Month(m)))
			if len(trip.Picks) > 0 && trip.Short {
				assert.Less(t, trip.Picks[len(trip.Picks)-1].Share, book.Edition.Constants.Cover)
				said++
			}
		}
		assert.Equal(t, said, strings.Count(pages[view.TripPage(w)], "nothing in the box adds more.</p>"), w.Name.S)
		all, said = all+said, 0
	}
	assert.Positive(t, all)
}

// slips are wordings that no page may hold.
var slips = map[string]*regexp.Regexp{
	"a stop too many":          regexp.MustCompile(`\.\.|\. \.|,,|;;|[,;:]\.`),
	"hours as they are typed":  regexp.MustCompile(`(?i)\b(sunset|sunrise|dusk|dawn|solar noon) ?[+−-] ?\d+(h|min)`),
	"a plural of one":          regexp.MustCompile(`(?:^|[^.\d])1 (visits|years|days|flies|steps|months|lengths|dressings|ticks)\b`),
	"a stop missing":           regexp.MustCompile(`(net|trap|search|tray|own) (First|Records|Found)`),
	"a wrong article":          regexp.MustCompile(`\b[Aa] ([aeio]|8|1[18]\b)|\b[Aa]n [bcdfgjklmnpqrstvwxyz]`),
	"what counts for some fly": regexp.MustCompile(`count for some fly`),
	"a colour's every doubt":   regexp.MustCompile(`not said whether`),
	"a list in brackets":       regexp.MustCompile(`\[\S+ \S+\]`),
}

var aDay = regexp.MustCompile(`^\d{1,2} \p{L}+( \d{4})?$`)

func TestNoSlips(t *testing.T) {
	book := demoBook()
	for address, page := range drawAll(t, book) {
		doc, err := html.Parse(strings.NewReader(page))
		require.NoError(t, err)
		walk(doc, func(n *html.Node) {
			switch n.DataAtom {
			case atom.P, atom.Li, atom.Td, atom.Th, atom.Dd, atom.Dt, atom.H1, atom.H2, atom.H3, atom.Caption, atom.Figcaption, atom.Summary:
			default:
				return
			}
			if n.FirstChild != nil && n.FirstChild.DataAtom == atom.Ul {
				return
			}
			text := strings.Join(strings.Fields(textOf(n)), " ")
			for what, r := range slips {
				if m := r.FindString(text); m != "" {
					t.Errorf("%s: %s: %q", address, what, m)
				}
			}
			before := ""
			for _, part := range strings.Split(text, ", ") {
				if part == before && aDay.MatchString(part) {
					t.Errorf("%s: a date given twice: %q", address, part)
				}
				before = part
			}
		})
		assert.NotRegexp(t, `›\s*(</span>\s*)*</nav>`, page, address)
	}
}

// A day later or earlier is said of the right water.
func TestDaysAsSentences(t *testing.T) {
	book := bookOf(t, oneFly())
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	for days, want := range map[float64]string{3: "Beck 3 days later", -3: "Beck 3 days earlier", 0: "the same", 2.5: "Beck 2.5 days later"} {
		assert.Contains(t, p.laterBy(days, "Beck"), want)
	}
}
