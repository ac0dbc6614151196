package share

// The calendars read back by a small parser of its own, by the rules of RFC
// 5545; the section stands beside each check.

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/build/figures"
	"guidegen/content/calendar"
	"guidegen/rivers/season"
)

type property struct{ name, value string }

// unfolded checks the lines and joins the folded ones (3.1).
func unfolded(t require.TestingT, b []byte) []property {
	s := string(b)
	require.True(t, utf8.ValidString(s))
	require.True(t, strings.HasSuffix(s, "\r\n"), "3.1: lines end with CRLF")
	require.Equal(t, strings.Count(s, "\n"), strings.Count(s, "\r\n"), "3.1: no bare line feed")
	for l := range strings.SplitSeq(s, "\r\n") {
		require.LessOrEqual(t, len(l), 75, "3.1: 75 octets without the line break")
		require.True(t, utf8.ValidString(l), "no character is split")
	}
	var out []property
	for l := range strings.SplitSeq(strings.TrimSuffix(strings.ReplaceAll(s, "\r\n ", ""), "\r\n"), "\r\n") {
		name, value, ok := strings.Cut(l, ":")
		require.True(t, ok, l)
		out = append(out, property{name, value})
	}
	return out
}

// events checks the nesting (3.4, 3.6) and gives the events.
func events(t require.TestingT, l []property) []map[string]string {
	require.Equal(t, property{"BEGIN", "VCALENDAR"}, l[0])
	require.Equal(t, property{"END", "VCALENDAR"}, l[len(l)-1])
	count := map[string]int{}
	var out []map[string]string
	var in map[string]string
	for _, p := range l[1 : len(l)-1] {
		switch {
		case p == property{"BEGIN", "VEVENT"}:
			require.Nil(t, in)
			in = map[string]string{}
		case p == property{"END", "VEVENT"}:
			require.NotNil(t, in)
			out, in = append(out, in), nil
		case in != nil:
			require.NotContains(t, in, p.name, "3.6.1: each of ours stands at most once")
			in[p.name] = p.value
		default:
			count[p.name]++
		}
	}
	require.Nil(t, in)
	require.NotEmpty(t, out, "3.6: at least one component")
	require.Equal(t, 1, count["VERSION"], "3.7.4")
	require.Equal(t, 1, count["PRODID"], "3.7.3")
	return out
}

// unescaped reads a TEXT value (3.3.11).
func unescaped(t require.TestingT, s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		switch {
		case s[i] == '\\':
			i++
			require.Less(t, i, len(s))
			require.Contains(t, `\;,nN`, string(s[i]))
			if s[i] == 'n' || s[i] == 'N' {
				b.WriteByte('\n')
			} else {
				b.WriteByte(s[i])
			}
		default:
			require.NotContains(t, ";,", string(s[i]), "must be escaped")
			b.WriteByte(s[i])
		}
	}
	return b.String()
}

func calendarEvents(t *testing.T, b []byte) []map[string]string {
	t.Helper()
	l := events(t, unfolded(t, b))
	uids := map[string]bool{}
	for _, e := range l {
		require.NotEmpty(t, e["UID"], "3.8.4.7")
		require.False(t, uids[e["UID"]], "unique")
		uids[e["UID"]] = true
		require.Equal(t, "20261124T000000Z", e["DTSTAMP"], "3.8.7.2: in UTC, the day the guide was built for")
		from, err := time.Parse("20060102", e["DTSTART;VALUE=DATE"])
		require.NoError(t, err, "3.3.4")
		to, err := time.Parse("20060102", e["DTEND;VALUE=DATE"])
		require.NoError(t, err)
		require.True(t, to.After(from), "3.8.2.2: the end is later than the start")
		require.NotEmpty(t, unescaped(t, e["SUMMARY"]))
		unescaped(t, e["DESCRIPTION"])
	}
	return l
}

func TestCalendarOfASouthernWater(t *testing.T) {
	l := calendarEvents(t, fileNamed(t, filesOf(t, smallBook(t, nil), nil), "calendar/orua.ics"))
	var got []string
	for _, e := range l {
		got = append(got, e["DTSTART;VALUE=DATE"]+"/"+e["DTEND;VALUE=DATE"]+" "+unescaped(t, e["SUMMARY"]))
		assert.Equal(t, "https://guide.example/flies/rivers/orua.html", e["URL"])
	}
	// DTEND is the first day that no longer counts (3.6.1)
	assert.Equal(t, []string{
		"20261001/20261002 Ōrua: first day of the season for trout, brown; sea",
		"20260430/20260501 Ōrua: last day of the season for trout, brown; sea",
		"20271001/20271002 Ōrua: first day of the season for trout, brown; sea",
		"20270430/20270501 Ōrua: last day of the season for trout, brown; sea",
		"20251120/20260211 Ōrua: Little fly expected, summer",
		"20261120/20270211 Ōrua: Little fly expected, summer",
		"20271120/20280211 Ōrua: Little fly expected, summer",
	}, got)
	assert.Equal(t, "C:\\fish\nDates last checked on 10 January 2026.", unescaped(t, l[0]["DESCRIPTION"]))
	assert.Contains(t, unescaped(t, l[4]["DESCRIPTION"]), "the same here by latitude and altitude")
}

func TestCalendarsOfTheDemo(t *testing.T) {
	book := demoBook(t, false)
	files := filesOf(t, book, nil)
	stable := map[string]string{}
	for _, w := range book.Waters {
		flights := 0
		for _, r := range w.Rows {
			flights += len(r.Flights)
		}
		l := calendarEvents(t, fileNamed(t, files, Calendar(w)))
		assert.GreaterOrEqual(t, len(l), 4*len(w.Seasons)+2*flights)
		for _, e := range l {
			assert.NotContains(t, stable, e["UID"])
			stable[e["UID"]] = e["SUMMARY"]
		}
	}
	// a year later the event of 2027 is still the same event
	later := *book
	later.Built.Year++
	kept := 0
	for _, w := range book.Waters {
		for _, e := range events(t, unfolded(t, calendarOf(&later, english(t), w))) {
			if s, ok := stable[e["UID"]]; ok {
				kept++
				assert.Equal(t, s, e["SUMMARY"])
			}
		}
	}
	assert.GreaterOrEqual(t, kept, len(stable)/3)
}

// Enough finds turn an entry's dates from the account's into the records', and
// the entry says so.
func TestCalendarSaysWhatDatesRestOn(t *testing.T) {
	b := smallBook(t, func(g fstest.MapFS) {
		s := string(g["samples/a.csv"].Data)
		for i := range 12 {
			s += fmt.Sprintf("R-%d,%d-12-%02d,Orua,Ford,sweep net,50 sweeps,upwinged,Little fly,dun,,4,,Tess Ambrook,,verified,\n", i, 2024+i%2, 10+i)
		}
		g["samples/a.csv"] = &fstest.MapFile{Data: []byte(s)}
	})
	d := b.Waters[0].Rows[0].Flights[0].Dates
	require.NotZero(t, d.P10)
	l := calendarEvents(t, fileNamed(t, filesOf(t, b, nil), "calendar/orua.ics"))
	e := l[len(l)-1]
	assert.Equal(t, fmt.Sprintf("2027%02d%02d", int(d.P10.Month()), d.P10.DayOfMonth()), e["DTSTART;VALUE=DATE"])
	assert.Contains(t, unescaped(t, e["DESCRIPTION"]), "From this water’s records")
}

// A water without flies and seasons has no calendar: one without events would be none (3.6).
func TestNoCalendarOfNothing(t *testing.T) {
	b := smallBook(t, func(g fstest.MapFS) {
		g["rivers/bare.yaml"] = &fstest.MapFile{Data: []byte("name: Bare Beck\nkind: rain-fed\n")}
	})
	require.Equal(t, "Bare Beck", b.Waters[0].Name.S)
	for _, f := range filesOf(t, b, nil) {
		assert.NotEqual(t, Calendar(b.Waters[0]), f.Path)
	}
}

// A flight to 28 February goes on over the 29th, which counts with it.
func TestFlightTakesInTheLeapDay(t *testing.T) {
	for _, c := range []struct {
		year     int
		from, to calendar.Day
		want     string
	}{
		{2028, calendar.DayOf(2, 20), calendar.DayOf(2, 28), "2028-02-20 2028-03-01"}, {2027, calendar.DayOf(2, 20), calendar.DayOf(2, 28), "2027-02-20 2027-03-01"},
		{2026, calendar.DayOf(12, 20), calendar.DayOf(12, 31), "2026-12-20 2027-01-01"}, {2027, calendar.DayOf(12, 20), calendar.DayOf(2, 28), "2027-12-20 2028-03-01"},
	} {
		from, after := span(c.year, c.from, c.to)
		assert.Equal(t, c.want, from.String()+" "+after.String())
	}
}

// To a season 29 February is a day of its own.
func TestSeasonsAboutTheLeapDay(t *testing.T) {
	for _, c := range []struct {
		open, shut string
		want       []string
	}{
		{"29 Feb", "30 Sep", []string{"20270301/20270302 first", "20270930/20271001 last", "20280229/20280301 first", "20280930/20281001 last"}},
		{"1 Oct", "28 Feb", []string{"20271001/20271002 first", "20270228/20270301 last", "20281001/20281002 first", "20280228/20280229 last"}},
		{"1 Oct", "Feb", []string{"20271001/20271002 first", "20270228/20270301 last", "20281001/20281002 first", "20280229/20280301 last"}},
	} {
		b := smallBook(t, func(g fstest.MapFS) {
			g["rivers/bare.yaml"] = &fstest.MapFile{Data: fmt.Appendf(nil, "name: Bare Beck\nkind: rain-fed\nseasons: {fish: trout, open: %s, close: %s}\n", c.open, c.shut)}
		})
		b.Built.Year = 2027
		var got []string
		text := string(fileNamed(t, filesOf(t, b, nil), Calendar(b.Waters[0])))
		for _, m := range regexp.MustCompile(`DTSTART;VALUE=DATE:(\d+)\r\nDTEND;VALUE=DATE:(\d+)\r\nSUMMARY:Bare Beck: (\w+)`).FindAllStringSubmatch(text, -1) {
			got = append(got, m[1]+"/"+m[2]+" "+m[3])
		}
		assert.ElementsMatch(t, c.want, got, c)
	}
}

func TestLinesFoldAndTextsEscape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		c := &ical{}
		c.line("SUMMARY", escaped(s))
		l := unfolded(t, []byte(c.b.String()))
		require.Len(t, l, 1)
		want := strings.Map(func(r rune) rune {
			if r < ' ' && r != '\t' && r != '\n' || r == 0x7f {
				return -1
			}
			return r
		}, s)
		require.Equal(t, want, unescaped(t, l[0].value))
	})
}

// What an entry's dates are based on, in words: each way that dates come about.
func TestExpectedSaysWhatDatesAreBasedOn(t *testing.T) {
	records := figures.FlightHere{}
	records.Dates.Protocol, records.Dates.Visits, records.Dates.Seasons = "sweep net", 7, []string{"2025", "2026"}
	for _, c := range []struct {
		flight      figures.FlightHere
		fromRecords bool
		want        string
	}{
		{records, true, "the days by which a tenth and nine tenths were on (sweep net, 7 visits in 2 seasons)."},
		{figures.FlightHere{Own: true, Rule: "own dates"}, false, "The dates given in this water’s record;"},
		{figures.FlightHere{Rule: "warmth", WhyNot: "no-curve"}, false, "The account’s dates, not moved to this water;"},
		{figures.FlightHere{Rule: "nothing"}, false, "The account’s dates, not moved to this water;"},
		{figures.FlightHere{Rule: "warmth"}, false, "The account’s dates, the same here by the water's warmth,"},
		{figures.FlightHere{Rule: "warmth", Shift: -3}, false, "moved 3 days earlier by the water's warmth,"},
		{figures.FlightHere{Rule: "altitude", Shift: 1}, false, "moved 1 day later by latitude and altitude,"},
	} {
		assert.Contains(t, expected(english(t), c.flight, season.Entry{FromRecords: c.fromRecords}), c.want)
	}
}
