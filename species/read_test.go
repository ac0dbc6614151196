package species

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"guidegen/content"
	"guidegen/content/calendar"
)

var vocabulary = []Character{
	{Name: "tails", States: []State{{Name: "two"}, {Name: "three"}, {Name: "none"}}, Seen: []Words{{Stage: Nymph}, {Stage: Dun}, {Stage: Spinner}}},
	{Name: "eyes", States: []State{{Name: "plain"}, {Name: "turban"}}},
}

func context() Context {
	return Context{content.Grounds{Sources: []string{"handbook"}}, vocabulary}
}

// read puts lines into the head of an upwinged fly's account, from line 5 on.
func read(lines string) (*Account, *content.Problems) {
	ps := &content.Problems{}
	f := content.NewFile("species/x.md", []byte("---\nname: X\ngroup: upwinged\nbasis: memory\n"+lines+"\n---\n"))
	return ReadAccount(f, context(), ps), ps
}

// found gives each problem as line:column id, in order.
func found(ps *content.Problems) []string {
	var l []string
	for _, p := range ps.All() {
		l = append(l, strings.SplitN(ps.Where(p.At), ":", 2)[1]+" "+p.ID)
	}
	return l
}

const twoFlights = "flights:\n  spring: {from: mid Feb, to: late Apr, abundance: rare}\n  late summer: {from: Jul, to: Aug, abundance: rare}\n"

func TestWordsOfCases(t *testing.T) {
	for key, want := range map[string]Words{
		"dun":                         {Stage: Dun},
		"Subimago":                    {Stage: Dun},
		"female spinner":              {Stage: Spinner, Sex: Female},
		"spring dun female":           {Dun, Female, "spring"},
		"dun late summer male":        {Dun, Male, "late summer"},
		"late  summer":                {Flight: "late summer"},
		"LATE SUMMER imago":           {Stage: Spinner, Flight: "late summer"},
		"spinner: {female: {spring":   {Spinner, Female, "spring"},
		"late summer: {male: {nymph":  {Nymph, Male, "late summer"},
		"female late summer: {dun":    {Dun, Female, "late summer"},
		"spring: {spinner: {unit: mm": {Spinner, "", "spring"},
	} {
		text := "length:\n  " + key + ": 7 mm" + strings.Repeat("}", strings.Count(key, "{"))
		if strings.HasSuffix(key, "unit: mm") {
			text = "length: {" + strings.TrimSuffix(key, "spinner: {unit: mm") + "unit: mm, spinner: 7}}"
		}
		a, ps := read(twoFlights + text)
		require.Empty(t, found(ps), text)
		require.Len(t, a.Length, 1, text)
		assert.Equal(t, want, a.Length[0].Words, text)
	}
}

func TestCasesThatClash(t *testing.T) {
	for text, want := range map[string][]string{
		"{dun: 7 mm, spring: 8 mm}":                                  {"8:21 case-clash"},
		"{dun: 7 mm, female: 8 mm}":                                  {"8:21 case-clash"},
		"{dun: 7 mm, spring: 8 mm, dun spring: 9 mm}":                nil, // the third settles it
		"{dun: 7 mm, spring: 8 mm, dun spring female: 9 mm}":         {"8:21 case-clash"},
		"{dun: {spring: 7 mm}, spring dun: 8 mm}":                    {"8:31 case-clash"},
		"{dun: 7 mm, spinner: 8 mm}":                                 nil,
		"{male: 7 mm, female: 8 mm, dun male: 9 mm}":                 nil,
		"{dun male: 7 mm, spring dun: 8 mm}":                         {"8:26 case-clash"},
		"{spring dun: 7 mm, late summer dun: 8 mm, dun: 9 mm}":       nil,
		"{dun: 7 mm, subimago: 8 mm}":                                {"8:21 case-clash"},
		"{spring male: 7 mm, dun female: 8 mm, late summer: 5 mm, }": nil,
	} {
		_, ps := read(twoFlights + "length: " + text)
		assert.Equal(t, want, found(ps), text)
		for _, p := range ps.All() {
			assert.NotZero(t, p.Also, "both places are given")
		}
	}
}

// Whatever cases are written, either the reader refuses them or every fly in
// every stage, sex and flight has one most specific case.
func TestCasesAreNeverAmbiguous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) string {
			w := Words{rapid.SampledFrom([]Stage{"", Dun, Spinner}).Draw(t, "stage"), rapid.SampledFrom([]Sex{"", Male, Female}).Draw(t, "sex"),
				rapid.SampledFrom([]string{"", "spring", "late summer"}).Draw(t, "flight")}
			return w.String()
		}).Filter(func(s string) bool { return s != "" }), 1, 8, rapid.ID[string]).Draw(t, "keys")
		text := "length:\n"
		for i, k := range keys {
			text += fmt.Sprintf("  %s: %d mm\n", k, i+1)
		}
		a, ps := read(twoFlights + text)
		if len(ps.All()) > 0 {
			for _, p := range ps.All() {
				if p.ID != "case-clash" {
					t.Fatalf("%s: %s", p.ID, p.Message)
				}
			}
			return
		}
		for _, s := range []Stage{Dun, Spinner} {
			for _, x := range []Sex{Male, Female} {
				for _, f := range []string{"spring", "late summer"} {
					c := Words{s, x, f}
					best, n := -1, 0
					for _, k := range a.Length {
						if w := k.Words.Weight(); k.Words.Holds(c) && w >= best {
							if w > best {
								best, n = w, 0
							}
							n++
						}
					}
					if n > 1 {
						t.Fatalf("%d cases hold equally for %s among %q", n, c, keys)
					}
				}
			}
		}
	})
}

// A name that one stage alone bears: the words in parentheses are no part of it.
func TestNamesOfOneStage(t *testing.T) {
	for text, want := range map[string]map[string]Met{
		"also: [early olive]":                   {},
		"also: sherry spinner (spinner female)": {"sherry spinner": {Spinner, Female}},
		"also: [a (dun), b ( male spinner )]":   {"a": {Dun, NoSex}, "b": {Spinner, Male}},
		"also: [(dun), c (imago) d]":            {},
		"also: [e (imago)]":                     {"e": {Spinner, NoSex}},
	} {
		a, ps := read(twoFlights + text + "\n")
		require.NotNil(t, a, text)
		assert.Empty(t, ps.All(), text)
		assert.Equal(t, want, a.Called, text)
		for name := range want {
			assert.True(t, slices.ContainsFunc(a.Names(), func(n content.Text) bool { return n.S == name }), text)
		}
	}
}

func TestSlipsInAnAccount(t *testing.T) {
	for text, want := range map[string][]string{
		"also: [olive (spinnr)]":                            {"8:15 unknown-word"},
		"length: {sumer: 7 mm}":                             {"8:10 unknown-word"},
		"length: {pupa: 7 mm, egg: 1 mm}":                   {"8:10 stage-not-in-group"},
		"length: {dun dun: 7 mm}":                           {"8:14 word-twice"},
		"length: {dun: {spinner: 7 mm}}":                    {"8:16 word-twice"},
		"length: {dun: 7}":                                  {"8:15 missing-unit"},
		"length: {dun: -7 mm}":                              {"8:15 bad-length"},
		"length: {dun: .inf mm}":                            {"8:15 bad-length"},
		"length: {dun: 1e3 mm}":                             {"8:15 bad-length"},
		"length: {dun: 7 mm (handbok)}":                     {"8:21 unknown-basis"},
		"length: {dun: [7 mm, 8]}":                          {"8:22 missing-unit"},
		"hours: {dun: 25:00 to 26:00}":                      {"8:14 bad-hours"},
		"hours: {dun: 11:00}":                               {"8:14 bad-hours"},
		"book_size: {dun: 012}":                             {"8:18 bad-size"},
		"book_size: {dun: 1/0}":                             nil,
		"level: {dun: srface}":                              {"8:14 unknown-level"},
		"emerges: by crawling":                              {"8:10 unknown-habit"},
		"colours: {dun: {body: \"#403d21\"}}":               {"8:23 bad-colour"},
		"colours: {body: {dun: Olive}, legs: Brown}":        nil, // either way round
		"colours: {dun: {body: Drak Olive}}":                {"8:23 misspelt-colour"},
		"colours: {dun: {body: pale brown}}":                nil,
		"colours: {dun: {body: Olive, wing}}":               {"8:30 bad-colour"},
		"colours: {dun: {sumer: {body: Olive}}}":            {"8:17 unknown-word"},
		"colours: {dun: Olive}":                             {"8:16 wrong-shape"},
		"colours: {dun: {gills: Olive}}":                    nil, // any part may be named
		"features: {tails: four}":                           {"8:19 unknown-state"},
		"features: {tails: {dun: [two, four]}}":             {"8:31 unknown-state"},
		"features: {tials: two}":                            {"8:12 unknown-feature"},
		"features: {eyes: {male: turban, female: plain}}":   nil,
		"altitude: high up":                                 {"8:11 bad-altitude"},
		"reviewed: 3/5/26, E. Marl":                         {"8:11 bad-date"},
		"reviewed: 2026-02-30, E. Marl":                     {"8:11 bad-date"},
		"names: {Welsh: [x]}":                               {"8:9 bad-language"},
		"protected: [{country: Wales}]":                     {"8:13 missing-key", "8:13 missing-key"},
		"show: all":                                         {"8:7 unknown-choice"},
		"emerges: (memory)":                                 {"8:10 empty-statement"},
		"emerges: [at the surface, under water (handbook)]": nil,
		"lays: {dun: under water}":                          {"8:7 wrong-shape"},
		"altitude: up to 600 m (handbook)\nfamly: Baetidae": {"9:1 unknown-key"},
		"length: {dun: 7 mm}\nlength: {dun: 8 mm}":          {"9:1 duplicate-key"},
		"wing: {dun: 8 x 9 mm}":                             {"8:13 bad-length"},
		"# Mānuka\nlength: {é: 7 mm, sumer: 8 mm}":          {"9:10 unknown-word", "9:19 unknown-word"},
	} {
		_, ps := read(twoFlights + text)
		assert.Equal(t, want, found(ps), text)
	}
}

func TestSlipsInFlights(t *testing.T) {
	for text, want := range map[string][]string{
		"{from: mid Feb, peak: Jun, to: Apr, abundance: rare}":                  {"6:23 peak-outside"},
		"{from: Nov, peak: 5 Jan, to: Feb, abundance: rare}":                    nil, // across New Year
		"{from: 29 Feb, to: Apr, abundance: rare}":                              nil,
		"{from: 2026-02-01, to: Apr, abundance: rare}":                          {"6:8 bad-day"},
		"{from: 3/5, to: 31 Apr, abundance: rare}":                              {"6:8 bad-day", "6:17 bad-day"},
		"{from: Feb, abundance: rare}":                                          {"6:1 missing-key"},
		"{from: Feb, to: Apr}":                                                  {"6:1 missing-key"},
		"{from: Feb, to: Apr, abundance: comon}":                                {"6:33 unknown-choice"},
		"{from: Feb, to: Apr, abundance: rare, moves: heat}":                    {"6:46 unknown-choice"},
		"{from: Feb, to: Apr, abundance: rare, days_per_degree: 4 (handbook)}":  nil,
		"{from: Feb, to: Apr, abundance: rare, days_per_degree: 4 days per °F}": nil,
		"{from: Feb, to: Apr, abundance: rare, days_per_degree: many}":          {"6:56 bad-number"},
		"{from: [Feb, Mar], to: Apr, abundance: rare}":                          {"6:8 wrong-shape"},
		"{from: Feb (handbook), peak: Mar (nobody), to: Apr, abundance: rare}":  {"6:35 unknown-basis"},
	} {
		_, ps := read("flights: {spring:\n" + text + "}\nlength: {spring: 7 mm}")
		assert.Equal(t, want, found(ps), text)
	}
	_, ps := read("flights:\n  dun: {from: Feb, to: Apr, abundance: rare}\n  Spring: {from: Feb, to: Apr, abundance: rare}\n  spring: {from: Feb, to: Apr, abundance: rare}")
	assert.Equal(t, []string{"6:3 flight-name", "8:3 flight-name"}, found(ps))
}

func TestBasisOfAFlight(t *testing.T) {
	a, ps := read("flights: {spring: {from: Feb (handbook), to: Apr, abundance: rare}, autumn: {from: Sep, to: Oct, abundance: rare, basis: own}}")
	require.Empty(t, found(ps))
	assert.Equal(t, "published:handbook", a.Flights[0].Basis.Key())
	assert.Equal(t, "own", a.Flights[1].Basis.Key())
	assert.Equal(t, "Feb", a.Flights[0].DatesText[0])
	assert.Equal(t, calendar.Day(32), a.Flights[0].From)
	assert.Equal(t, calendar.Day(120), a.Flights[0].To, "a bare month ends with its last day")
}

func TestNoBasisIsSaidOnce(t *testing.T) {
	ps := &content.Problems{}
	f := content.NewFile("species/x.md", []byte("---\nname: X\ngroup: upwinged\nlength: {dun: 7 mm, spinner: 8 mm (own)}\nlays: under water\n---\n"))
	a := ReadAccount(f, context(), ps)
	assert.Equal(t, []string{"5:7 no-basis"}, found(ps), "the laying is read before the length")
	assert.Equal(t, "memory", a.Length[0].Claims[0].Basis.Key())
	assert.Equal(t, "own", a.Length[1].Claims[0].Basis.Key())
	assert.True(t, a.Basis.IsZero())
}

func TestScientificNames(t *testing.T) {
	for text, want := range map[string][2]string{
		"Baetis rhodani (Pictet, 1843)":               {"Baetis rhodani", "(Pictet, 1843)"},
		"Ephemera danica Müller, 1764":                {"Ephemera danica", "Müller, 1764"},
		"Baetis":                                      {"Baetis", ""},
		"Nemoura cinerea cinerea (Retzius, 1783)":     {"Nemoura cinerea cinerea", "(Retzius, 1783)"},
		"Baetis (Nigrobaetis) niger (Linnaeus, 1761)": {"Baetis (Nigrobaetis) niger", "(Linnaeus, 1761)"},
		"Sialis lutaria de Geer, 1773":                {"Sialis lutaria", "de Geer, 1773"},
		"Aa aa Aa, 1900":                              {"Aa aa", "Aa, 1900"},
	} {
		a, ps := read("scientific: " + text)
		require.Empty(t, found(ps))
		assert.Equal(t, want, [2]string{a.Scientific.Name.S, a.Scientific.Authority}, text)
	}
}

func TestSourcesAndTheirIdentifiers(t *testing.T) {
	// 0-306-40615-2 and 978-0-306-40615-7 are the worked examples of ISBN check digits in common use (from memory).
	for n, ok := range map[string]bool{"0-306-40615-2": true, "978-0-306-40615-7": true, "0-306-40615-3": false, "080442957X": true, "": false, "978": false} {
		assert.Equal(t, ok, isbn(n), n)
	}
	ps := &content.Problems{}
	l := ReadSources(content.NewFile("sources.yaml", []byte("own: {cite: a, kind: book}\nb: {cite: b, kind: bok}\nc: {kind: book, read: yes}\n")), ps)
	assert.Equal(t, []string{"1:1 source-key", "2:20 unknown-choice", "3:4 missing-key"}, found(ps))
	assert.Equal(t, []string{"b", "c"}, SourceKeys(l))
}

func FuzzAccount(f *testing.F) {
	for _, s := range []string{twoFlights + "length: {dun: {spring: [7 mm (own), 8]}}", "colours: {dun: {body: Olive, wet, 403d21}}", "features: {tails: {dun: [two, x]}}",
		"scientific: Baetis (x) y z (A, 1)", "hours: dusk (memory)", "reviewed: 2026-01-01,", "names: {cy: [a]}", "altitude: up to 5 m", "flights: {a b: {from: Feb (own)}}"} {
		f.Add([]byte("---\nname: é\ngroup: upwinged\n" + s + "\n---\nbody\n"))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		file := content.NewFile("species/x.md", b)
		ps := &content.Problems{}
		ReadAccount(file, context(), ps)
		ReadDressings(content.NewFile("species/x.md", b), context(), ps)
		for _, p := range ps.All() {
			for _, at := range []content.Place{p.At, p.Also} {
				if at.Offset < 0 || at.Len < 0 || at.Offset+at.Len > len(b) {
					t.Fatalf("%s points outside the file: %+v of %d", p.ID, at, len(b))
				}
			}
			ps.Print(&strings.Builder{}, p)
		}
	})
}
