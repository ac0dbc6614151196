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
	"guidegen/content/calendar"
)

func TestSpansInWords(t *testing.T) {
	w, err := LoadWords("en")
	require.NoError(t, err)
	for written, want := range map[string]string{
		"sunset-2h to sunset+30min":      "2 hours before sunset to half an hour after",
		"sunset-1h to sunset":            "an hour before sunset to sunset",
		"sunset to sunset+90min":         "sunset to 1½ hours after",
		"17:00 to sunset+45min":          "17:00 to 45 minutes after sunset",
		"sunrise+1h to sunset-1h":        "an hour after sunrise to an hour before sunset",
		"dusk":                           "half an hour before dusk to half an hour after",
		"dawn - 1h15min to 07:00":        "an hour and 15 minutes before dawn to 07:00",
		"11:00 to 15:30":                 "11:00 to 15:30",
		"solar noon-30min to solar noon": "half an hour before solar noon to solar noon",
	} {
		s, err := calendar.ParseSpan(written)
		require.NoError(t, err, written)
		assert.Equal(t, want, w.Span(s), written)
	}
}

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

func cardOf(t *testing.T, book *figures.Book, water, fly string) CardView {
	t.Helper()
	p, err := NewPrinter(book, Deps{Site: fakeSite{}})
	require.NoError(t, err)
	for _, w := range book.Waters {
		for i, r := range w.Rows {
			if w.Name.S == water && r.Fly.Name.S == fly {
				return p.card(waterPage(w), i, r)
			}
		}
	}
	t.Fatalf("no %s on %s", fly, water)
	return CardView{}
}

// A line for one flight only says so, or it would stand empty in the other's season: of the iron blue's
// spring duns each sex was measured on the Pellowbourne, of its autumn duns none.
func TestCardLinesOfOneFlight(t *testing.T) {
	var only []string
	for _, s := range cardOf(t, demoBook(), "Pellowbourne", "Iron blue").Stages {
		if s.Kind == ShortDun {
			require.Len(t, s.Flights, 2)
			only = append(only, s.Flights[0].Number, s.Flights[1].Number)
		} else {
			assert.Len(t, s.Flights, 2)
			assert.Empty(t, s.Only)
		}
	}
	assert.Equal(t, []string{"0", "1"}, only)
}

// Hours against the sun say which day of the month they are for, those by the clock don't, and what
// others say follows.
func TestCardHours(t *testing.T) {
	book := bookOf(t, twoFlights())
	hours := map[string]string{}
	for _, s := range cardOf(t, book, "Beck", "Twice olive").Stages {
		for _, h := range s.Hours {
			hours[s.Stage+" "+h.Months] = h.Text
		}
	}
	assert.Regexp(t, `^\d\d:\d\d–\d\d:\d\d \(mid-May\); others say 05:00–07:00$`, hours["female spinner 5"])
	assert.Equal(t, "11:00–15:00", hours["dun 3 4 5"])

	// In a month of both flights each is named.
	both := twoFlights()
	both["species/fly.md"] = file(strings.Replace(string(both["species/fly.md"].Data), "from: mid Sep, to: late Oct", "from: mid May, to: late Oct", 1))
	assert.Equal(t, []CardHours{{"3 4", "11:00–15:00"}, {"5", "spring: 11:00–15:00"}, {"5", "autumn: 12:00–14:00"}, {"6 7 8 9 10", "12:00–14:00"}},
		cardOf(t, bookOf(t, both), "Beck", "Twice olive").Stages[0].Hours)

	// Without a place there is no clock for the sun: the words stand.
	nowhere := twoFlights()
	nowhere["rivers/beck.yaml"] = file("name: Beck\nkind: rain-fed\nflies:\n  Twice olive: frequent\n")
	for _, s := range cardOf(t, bookOf(t, nowhere), "Beck", "Twice olive").Stages {
		if s.Stage == "female spinner" {
			assert.Equal(t, "an hour before sunset to sunset; others say 05:00–07:00", s.Hours[0].Text)
		}
	}
}

// A state that rests on the account alone is no find, and says so.
func TestNeverFoundHere(t *testing.T) {
	assert.Equal(t, "by the account; nobody has looked for it here", cardOf(t, bookOf(t, twoFlights()), "Beck", "Twice olive").Never)
	assert.Equal(t, "by the account and other waters; never found here", cardOf(t, demoBook(), "Ullavane", "Cinnamon sedge").Never)
	assert.Empty(t, cardOf(t, demoBook(), "Pellowbourne", "Cinnamon sedge").Never)
}

// A list that stops before enough is covered says how far it comes and why.
func TestATripListSaysWhyItStops(t *testing.T) {
	book := demoBook()
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
		assert.Equal(t, said, strings.Count(pages[tripPage(w)], "nothing in the box adds more.</p>"), w.Name.S)
		all, said = all+said, 0
	}
	assert.Positive(t, all)
}

// slips are wordings that no page may hold.
var slips = map[string]*regexp.Regexp{
	"a stop too many":          regexp.MustCompile(`\.\.|\. \.|,,|;;|[,;:]\.`),
	"hours as they are typed":  regexp.MustCompile(`(?i)\b(sunset|sunrise|dusk|dawn|solar noon) ?[+−-] ?\d`),
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

// One stop ends a name's initials and the sentence; {Names} begin one.
func TestWordsJoin(t *testing.T) {
	w, err := loadWords(fstest.MapFS{"words/en.yaml": {Data: []byte("by: by {who}.\nfish: '{Fish}: shut.'\n")}}, "en")
	require.NoError(t, err)
	assert.Equal(t, "by M. Q.", w.Plain("by", "who", "M. Q."))
	assert.Equal(t, "by Ada.", w.Plain("by", "who", "Ada"))
	assert.Equal(t, "Écrevisse: shut.", w.Plain("fish", "fish", "écrevisse"))
}
