package page

// What the reader is told around a date: hours against the sun, what others say of them, flies never
// found here, and why a list stops.

import (
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"guidegen/build/figures"
	"guidegen/build/view"
	"guidegen/content/calendar"
	"guidegen/species"
	"guidegen/species/hook"
	"guidegen/species/tying"
)

// twoFlights is a fly of spring and autumn, at different hours.
func twoFlights() fstest.MapFS {
	return fstest.MapFS{
		"guide.yaml": file("format: 1\nname: Two flights\nbasis: memory\n"),
		"species/fly.md": file("---\nname: Twice olive\ngroup: upwinged\nflights:\n  spring: {from: mid Mar, to: late May, abundance: frequent}\n  autumn: {from: mid Sep, to: late Oct, abundance: frequent}\n" +
			"hours: {dun: {spring: 11:00 to 15:00, autumn: 12:00 to 14:00}, spinner: [sunset-1h to sunset, 5:00 to 7:00]}\n" +
			"length: {dun: 6 mm}\n---\n\nA fly.\n"),
		"rivers/beck.yaml": file("name: Beck\nkind: rain-fed\nplace: 54.0 N, 2.0 W\ntime_zone: Europe/London\nflies:\n  Twice olive: frequent\n"),
	}
}

func dataOf(t *testing.T, book *figures.Book, water, fly string) (flyData, onData) {
	t.Helper()
	p, err := NewPrinter(book, view.Deps{Site: fakeSite{}})
	require.NoError(t, err)
	for _, w := range book.Waters {
		d := p.onData(view.WaterPage(w), w)
		for _, f := range d.Flies {
			if w.Name.S == water && f.Name == fly {
				return f, d
			}
		}
	}
	t.Fatalf("no %s on %s", fly, water)
	return flyData{}, onData{}
}

// The hours of a stage hold for the flight that the account gives them for, and for all where it gives them once.
func TestHoursOfFlights(t *testing.T) {
	f, d := dataOf(t, bookOf(t, twoFlights()), "Beck", "Twice olive")
	require.Equal(t, "dun", f.Stages[0].Name)
	want := map[int][]any{0: {1, 660, 900}, 1: {1, 720, 840}}
	require.Len(t, f.Stages[0].Hours, 2)
	for _, h := range f.Stages[0].Hours {
		assert.Equal(t, [][]any{want[h.Flight]}, d.Hours[h.Hours].Runs)
		assert.Zero(t, d.Hours[h.Hours].Sun)
	}
	spinner := f.Stages[1]
	require.Len(t, spinner.Hours, 1)
	assert.Equal(t, -1, spinner.Hours[0].Flight, "the same in both")
	assert.Equal(t, 3, d.Hours[spinner.Hours[0].Hours].Sun, "sunset to sunset")
	assert.Equal(t, [][]any{{1, 300, 420}}, d.Hours[spinner.Hours[0].Others[0]].Runs, "what others say")

	// Without a place there is no clock for the sun: the words stand.
	nowhere := twoFlights()
	nowhere["rivers/beck.yaml"] = file("name: Beck\nkind: rain-fed\nflies:\n  Twice olive: frequent\n")
	f, d = dataOf(t, bookOf(t, nowhere), "Beck", "Twice olive")
	assert.Equal(t, [][]any{{1, "an hour before sunset to sunset"}}, d.Hours[f.Stages[1].Hours[0].Hours].Runs)
}

// What a month's figure is based on: two thirds of own visits are most of them; fewer are half; thin evidence and
// nobody looked have marks of their own whatever the shares.
func TestBasisMarks(t *testing.T) {
	for want, m := range map[string]figures.MonthHere{
		"3": {Looked: 9, Own: 2.0 / 3}, "2": {Looked: 9, Own: 0.66}, "1": {Looked: 2, Own: 0.9, Thin: true}, "0": {Own: 0.8},
	} {
		assert.Equal(t, want, basisMark(&m))
	}
}

// A dressing on the largest or smallest of its hooks says so where the fly asks for another.
func TestHooksAtTheEndOfADressing(t *testing.T) {
	p, err := NewPrinter(demoBook(), view.Deps{Site: fakeSite{}})
	require.NoError(t, err)
	m := &onMaker{Printer: p}
	var d *figures.Dressing
	for _, x := range p.book.Dressings {
		if len(x.Sizes) > 1 {
			d = x
		}
	}
	require.NotNil(t, d)
	small, large := d.Sizes[0], d.Sizes[0]
	for _, s := range d.Sizes {
		if s.Step() < small.Step() {
			small = s
		}
		if s.Step() > large.Step() {
			large = s
		}
	}
	size := func(s string) hook.Size { z, _ := hook.ParseSize(s); return z }
	for _, c := range []struct {
		on, asked hook.Size
		want      string
	}{
		{small, small, "x " + small.String()}, {small, size("28"), "x " + small.String() + ", its smallest"},
		{large, size("2"), "x " + large.String() + ", its largest"}, {large, small, "x " + large.String()},
	} {
		sd := figures.StageDressings{Length: figures.HookGround{Hooks: []figures.HookFor{{Suggestion: hook.Suggestion{Model: "x", Size: c.asked}}}}}
		o := tying.Offer{Name: d.Name.S, Size: &tying.SizePart{Hook: tying.Hook{Model: "x", Size: c.on.String()}}}
		assert.Equal(t, c.want, m.hookFor(sd, o))
	}
}

// A state that is based on the account alone is no find, and says so.
func TestNeverFoundHere(t *testing.T) {
	never := func(book *figures.Book, water, fly string) string {
		f, _ := dataOf(t, book, water, fly)
		return f.Never
	}
	assert.Equal(t, "from the account; nobody has looked for it here", never(bookOf(t, twoFlights()), "Beck", "Twice olive"))
	assert.Equal(t, "from the account and other waters; never found here", never(demoBook(), "Ullavane", "Cinnamon sedge"))
	assert.Empty(t, never(demoBook(), "Pellowbourne", "Cinnamon sedge"))
}

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
