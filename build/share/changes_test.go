package share

import (
	"encoding/xml"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
)

// altered is the small guide with one text of one file put in another's place.
func altered(t *testing.T, file, old, new string) func(fstest.MapFS) {
	return func(f fstest.MapFS) {
		s := string(f[file].Data)
		require.Contains(t, s, old)
		f[file] = &fstest.MapFile{Data: []byte(strings.Replace(s, old, new, 1))}
	}
}

func TestChangesAreWhatAReaderCallsSo(t *testing.T) {
	before := filesOf(t, smallBook(t, nil), nil)
	for _, c := range []struct {
		what, file, old, new string
		page, line           string // of which one must be reported; "": none may be
	}{
		{"a later flight", "species/little-fly.md", "peak: 20 Dec", "peak: 25 Dec", "index.html",
			"Little fly, summer flight: 20 November to 10 February, most around 20 December, frequent → 20 November to 10 February, most around 25 December, frequent"},
		{"a season", "rivers/orua.yaml", "close: 30 Apr", "close: 31 May", "rivers/orua.html",
			"Season for trout, brown; sea: 1 October to 30 April → 1 October to 31 May"},
		{"an empty visit", "samples/a.csv", "K-4,", "K-5,2026-06-05,Orua,Ford,sweep net,50 sweeps,upwinged,nothing,,,,,,,,\nK-4,", "rivers/orua.html",
			"Now looked for in June, not found: Little fly"},
		{"a visit", "samples/a.csv", "K-4,", "K-5,2026-06-05,Orua,Ford,sweep net,50 sweeps,upwinged,nothing,,,,,,,,\nK-4,", "rivers/orua.html",
			"1 new visit"},
		{"a find", "samples/a.csv", "K-4,", "K-5,2026-06-05,Orua,Ford,sweep net,50 sweeps,upwinged,Little fly,dun,,,,,,,\nK-4,", "rivers/orua.html",
			"1 new visit, 1 find new to its half-month"},
		{"another name in Latin", "species/little-fly.md", "Deleatidium lillii Eaton, 1899", "Deleatidium myzobranchia Phillips, 1930", "index.html",
			"Little fly, scientific name: Deleatidium lillii → Deleatidium myzobranchia"},
		{"another name", "rivers/orua.yaml", "name: Ōrua", "name: Ōruaiti", "index.html", "Ōrua is now called Ōruaiti"},
		{"a dressing", "dressings/box.yaml", "sizes: 14-16", "sizes: 14-18", "index.html",
			"Dun thing, hook sizes: 14, 16 → 14, 16, 18"},
		{"a fly gone", "rivers/orua.yaml", "Little fly: frequent, ", "", "rivers/orua.html", "Little fly: frequent → not in the water's list"},
	} {
		t.Run(c.what, func(t *testing.T) {
			var lines []string
			for _, x := range changed(smallBook(t, altered(t, c.file, c.old, c.new)), t, before) {
				if x.Page == c.page {
					lines = x.Lines
				}
			}
			assert.Contains(t, lines, c.line)
		})
	}
}

// changed are the changes of a book since a site.
func changed(book *figures.Book, t *testing.T, old []File) []Change {
	t.Helper()
	var waters []File
	files := filesOf(t, book, nil)
	for _, f := range files {
		if strings.HasPrefix(f.Path, "data/rivers/") {
			waters = append(waters, f)
		}
	}
	return readSite(book, siteOf(old), english(t)).changes(fileNamed(t, files, GuideData), waters)
}

func TestNoChangeWhereNoReaderSeesOne(t *testing.T) {
	book := demoBook(t, false)
	before := filesOf(t, book, nil)
	for what, other := range map[string]func(path, data string) string{
		"nothing": func(_, s string) string { return s },
		"another day, and a later record": func(_, s string) string {
			return strings.NewReplacer(`"built":"2026`, `"built":"2025`, `"records_to":"2026`, `"records_to":"2025`, `"found_this_year":["`, `"found_this_year":["2025-01-01","`).Replace(s)
		},
		"a chance by less than a tenth": func(_, s string) string {
			return regexp.MustCompile(`"chance":0\.([1-8])(\d)\d*`).ReplaceAllString(s, `"chance":0.${1}5`)
		},
		"a score": func(_, s string) string {
			return regexp.MustCompile(`"score":(\d)\d*`).ReplaceAllString(s, `"score":${1}3`)
		},
		"another edition": func(_, s string) string {
			return strings.ReplaceAll(strings.Replace(s, `"edition":"public"`, `"edition":"members"`, 1), `"name":"`, `"name":"x`)
		},
	} {
		var old []File
		same := true
		for _, f := range before {
			s := string(f.Bytes)
			if strings.HasPrefix(f.Path, "data/") && strings.HasSuffix(f.Path, ".json") {
				s = other(f.Path, s)
				same = same && s == string(f.Bytes)
			}
			old = append(old, File{f.Path, []byte(s)})
		}
		assert.Equal(t, what == "nothing", same, what)
		assert.Empty(t, changed(book, t, old), what)
	}
	assert.Empty(t, changed(book, t, nil), "no site before")
}

// The limits of what is a change, each from both sides.
func TestLimitsOfAChange(t *testing.T) {
	w := english(t)
	told := func(do func(s *site, t *teller)) []string {
		s := &site{words: w, hidden: func(string) bool { return false }, moved: map[string]string{}, edited: map[string]bool{}}
		x := s.teller("rivers/beck.html")
		do(s, x)
		return x.lines
	}
	year := func(chance number, looked, found int) fly {
		f := fly{Name: "Little fly", Listed: true}
		for i := range 12 {
			f.Months = append(f.Months, month{Month: i + 1})
		}
		f.Months[2] = month{Month: 3, Chance: chance, Looked: looked, Found: found}
		return f
	}
	flies := func(x, y fly) []string {
		return told(func(s *site, t *teller) {
			t.months([]string{"a"}, map[string]fly{"a": x}, map[string]fly{"a": y})
			s.fly(t, "a", x, y, &whole{}, &whole{})
		})
	}
	assert.Empty(t, flies(year(0.45, 2, 1), year(0.549, 3, 1)))
	assert.Equal(t, []string{"Little fly, chance: March 45 % → 55 %"}, flies(year(0.45, 2, 1), year(0.55, 3, 1)))
	assert.Equal(t, []string{"Now looked for in March, not found: Little fly"}, flies(year(0.45, 0, 0), year(0.45, 1, 0)))
	assert.Equal(t, []string{"Now found in March: Little fly"}, flies(year(0.45, 1, 0), year(0.45, 2, 1)))
	assert.Equal(t, []string{"No visit left in March that looked for: Little fly"}, flies(year(0.45, 1, 0), year(0.45, 0, 0)))

	sized := func(mm number, hook string) fly {
		f := year(0.5, 1, 1)
		f.Flights = []flight{{Name: "spring", From: dayOf(60), Peak: dayOf(80), To: dayOf(100),
			Sizes: []size{{Stage: "dun", Flight: new("spring"), N: 4, Median: &mm, Digits: new(1), Hook: &hookGround{Models: []hookFor{{Model: "dry", Size: &hook}}}}}}}
		return f
	}
	assert.Empty(t, flies(sized(8, "14"), sized(8.3, "14")))
	assert.Equal(t, []string{"Little fly, dun spring, length: 8.0 mm (4 measured) → 8.4 mm (4 measured)"}, flies(sized(8, "14"), sized(8.4, "14")))
	assert.Equal(t, []string{"Little fly, dun spring, hook: dry 14 → 16"}, flies(sized(8, "14"), sized(8.1, "16")))
	later := sized(8, "14")
	later.Flights = slices.Clone(later.Flights)
	later.Flights[0].Peak = dayOf(82)
	assert.Empty(t, flies(sized(8, "14"), later))
	later.Flights[0].Peak = dayOf(83)
	assert.Len(t, flies(sized(8, "14"), later), 1)

	with := func(names ...string) fly {
		f := year(0.5, 1, 1)
		f.Dressings = []advice{{Stage: "dun"}}
		for i, n := range names {
			f.Dressings[0].Offered = append(f.Dressings[0].Offered, offer{dressingName: dressingName{n, n}, Score: number(50 + i)})
		}
		return f
	}
	assert.Empty(t, flies(with("A", "B"), with("B", "A")), "the order and the scores are no change")
	assert.Equal(t, []string{"Little fly, dun, new to tie on: C", "Little fly, dun, no longer to tie on: A"}, flies(with("A", "B"), with("B", "C")))
}

func readFeed(t *testing.T, files []File) feed {
	t.Helper()
	var f feed
	require.NoError(t, xml.Unmarshal(fileNamed(t, files, ChangesFeed), &f))
	return f
}

// RFC 4287: sections named at each check.
func checkFeed(t *testing.T, f feed) {
	t.Helper()
	assert.Equal(t, "http://www.w3.org/2005/Atom", f.XMLName.Space, "2")
	iri := func(s string) { // 4.2.6: an absolute IRI
		u, err := url.Parse(s)
		require.NoError(t, err)
		assert.True(t, u.IsAbs(), s)
	}
	stamp := func(s string) { // 3.3
		_, err := time.Parse(time.RFC3339, s)
		assert.NoError(t, err)
	}
	iri(f.ID)
	stamp(f.Updated)
	assert.NotEmpty(t, f.Title, "4.1.1")
	assert.NotEmpty(t, f.Author.Name, "4.1.1, 4.2.1")
	links := func(l []link) map[string]string {
		out := map[string]string{}
		for _, x := range l {
			assert.NotContains(t, out, x.Rel, "4.1.1, 4.1.2: one link of a kind")
			assert.Contains(t, []string{"alternate", "self"}, x.Rel, "4.2.7.2")
			out[x.Rel] = x.Href
		}
		return out
	}
	l := links(f.Links)
	assert.NotEmpty(t, l["alternate"], "4.1.1")
	if strings.HasPrefix(f.ID, "http") { // the guide has an address: then nothing depends on where the feed was found
		assert.Equal(t, f.ID, l["self"], "4.1.1: a feed should say where it is")
		assert.True(t, strings.HasSuffix(f.ID, "/"+ChangesFeed))
		iri(l["alternate"])
		for _, e := range f.Entries {
			iri(links(e.Links)["alternate"])
		}
	}
	seen := map[string]bool{}
	for i, e := range f.Entries {
		iri(e.ID)
		assert.False(t, seen[e.ID], "4.1.1: two entries of one id need different times, and none of ours do")
		seen[e.ID] = true
		stamp(e.Updated)
		assert.LessOrEqual(t, e.Updated, f.Updated)
		if i > 0 {
			assert.LessOrEqual(t, e.Updated, f.Entries[i-1].Updated, "newest first")
		}
		assert.NotEmpty(t, e.Title, "4.1.2")
		assert.Equal(t, "html", e.Content.Type, "4.1.3.1")
		assert.NotRegexp(t, `(?i)today|yesterday|(day|week|month|year)s? ago|now on`, e.Title+e.Content.Text, "only absolute dates")
		for _, l := range e.Links {
			_, err := url.Parse(l.Href)
			assert.NoError(t, err)
		}
	}
}

func TestFeedOfCorrections(t *testing.T) {
	f := readFeed(t, filesOf(t, smallBook(t, nil), nil))
	checkFeed(t, f)
	require.Len(t, f.Entries, 1, "the correction in the withheld water's file is not among them")
	e := f.Entries[0]
	assert.Equal(t, "Put right: its peak < December", e.Title)
	assert.Equal(t, "2026-03-02T00:00:00Z", e.Updated)
	assert.Equal(t, "T. A.", e.Author.Name)
	assert.Equal(t, "<ul><li>It said: 1 Jan</li><li>It says now: 20 Dec</li><li>Why: misread</li></ul>", e.Content.Text)
	// RFC 4151 section 2.1: tag:authority,date:specific
	assert.Regexp(t, `^tag:guide\.example,2026-03-02:[0-9a-f-]{36}$`, e.ID)
	assert.Equal(t, "https://guide.example/flies/changes.xml", f.ID)
	assert.Equal(t, "https://guide.example/flies/corrections.html", e.Links[0].Href)

	bare := readFeed(t, filesOf(t, smallBook(t, altered(t, "guide.yaml", "address: https://guide.example/flies\n", "")), nil))
	checkFeed(t, bare)
	assert.Regexp(t, regexp.MustCompile(`^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`), bare.Entries[0].ID)
	assert.Equal(t, "corrections.html", bare.Entries[0].Links[0].Href)

	demo := readFeed(t, filesOf(t, demoBook(t, false), nil))
	checkFeed(t, demo)
	assert.Len(t, demo.Entries, 2)
}

func TestFeedKeepsWhatChangedBefore(t *testing.T) {
	first := filesOf(t, smallBook(t, nil), nil)
	season := altered(t, "rivers/orua.yaml", "close: 30 Apr", "close: 31 May")
	second := filesOf(t, smallBook(t, season), siteOf(first))
	f := readFeed(t, second)
	checkFeed(t, f)
	require.Len(t, f.Entries, 2)
	assert.Equal(t, "Ōrua: 1 change", f.Entries[0].Title)
	assert.Equal(t, "2026-11-24T00:00:00Z", f.Entries[0].Updated)

	again := filesOf(t, smallBook(t, season), siteOf(second))
	assert.Equal(t, string(fileNamed(t, second, ChangesFeed)), string(fileNamed(t, again, ChangesFeed)), "published again with nothing changed, the feed stays as it was")

	third := filesOf(t, smallBook(t, func(g fstest.MapFS) {
		season(g)
		altered(t, "species/little-fly.md", "peak: 20 Dec", "peak: 25 Dec")(g)
	}), siteOf(again))
	f = readFeed(t, third)
	checkFeed(t, f)
	assert.Len(t, f.Entries, 3, "correction, season, the account's new flight, which is said once")
}

// Published twice, a guide is the same to the byte: a chance smaller than the file's last digit is none on both sides.
func TestPublishedTwiceIsTheSame(t *testing.T) {
	for name, book := range map[string]*figures.Book{"small": smallBook(t, nil), "demo": demoBook(t, false)} {
		for _, w := range book.Waters {
			for _, r := range w.Rows {
				for i := range r.Months {
					if m := &r.Months[i]; m.State != figures.NotExpected {
						defer func(was float64) { m.Low = was }(m.Low)
						m.Low = 4e-10
					}
				}
			}
		}
		first := filesOf(t, book, nil)
		second := filesOf(t, book, siteOf(first))
		require.Len(t, second, len(first))
		for i, f := range second {
			assert.Equal(t, string(first[i].Bytes), string(f.Bytes), "%s: %s", name, f.Path)
		}
	}
}

// A text that was public and is withheld now must not come back through the
// old site's data or feed.
func TestFeedForgetsWhatIsWithheldNow(t *testing.T) {
	open := func(g fstest.MapFS) { altered(t, "rivers/secret-water.yaml", "show: members\n", "")(g) }
	first := filesOf(t, smallBook(t, open), siteOf(filesOf(t, smallBook(t, nil), nil)))
	require.Contains(t, string(fileNamed(t, first, ChangesFeed)), "New waters: Nobody&amp;#39;s Tarn")
	second := filesOf(t, smallBook(t, func(g fstest.MapFS) {
		open(g)
		altered(t, "rivers/secret-water.yaml", "close: 30 Apr", "close: 29 Apr")(g)
	}), siteOf(first))
	require.Contains(t, string(fileNamed(t, second, ChangesFeed)), "<title>Nobody&#39;s Tarn: 1 change")
	third := filesOf(t, smallBook(t, nil), siteOf(second))
	for _, f := range third {
		assert.NotContains(t, string(f.Bytes), "Tarn", f.Path)
	}
	checkFeed(t, readFeed(t, third))
}

// A fly that is shown elsewhere but no longer on a water is not told to be gone from it, nor ever to have come.
func TestFeedForgetsAFlyOnOneWater(t *testing.T) {
	with := func(listing string) *figures.Book {
		return smallBook(t, func(g fstest.MapFS) {
			g["species/plain-fly.md"] = &fstest.MapFile{Data: []byte(strings.Replace(string(g["species/little-fly.md"].Data), "Little fly\nscientific: Deleatidium lillii", "Plain fly\nscientific: Deleatidium vernale", 1))}
			altered(t, "rivers/orua.yaml", "Little fly: frequent, ", "Little fly: frequent, "+listing)(g)
		})
	}
	first := filesOf(t, with(""), nil)
	second := filesOf(t, with("Plain fly: rare, "), siteOf(first))
	require.Contains(t, string(fileNamed(t, second, ChangesFeed)), "New here: Plain fly")
	third := string(fileNamed(t, filesOf(t, with("Plain fly: {abundance: rare, show: members}, "), siteOf(second)), ChangesFeed))
	assert.NotContains(t, third, "Plain fly")
	gone := string(fileNamed(t, filesOf(t, with(""), siteOf(second)), ChangesFeed))
	assert.Contains(t, gone, "No longer here: Plain fly", "where nothing is withheld it is told")
}

func TestABrokenOldSiteIsNone(t *testing.T) {
	for _, old := range []fstest.MapFS{
		{},
		{GuideData: {Data: []byte("{")}},
		{GuideData: {Data: []byte(`{"format": 99, "edition": "public"}`)}},
		{GuideData: {Data: []byte(`{"format": 2, "edition": "public"}`)}, "data/rivers/orua.json": {Data: []byte("[]")}, ChangesFeed: {Data: []byte("<")}},
	} {
		checkFeed(t, readFeed(t, filesOf(t, smallBook(t, nil), old)))
	}
}

// RFC 9562, appendix A.4: the name-based UUID of "www.example.com" in the
// namespace of domain names.
func TestUUIDFromRFC9562(t *testing.T) {
	domain := [16]byte{0x6b, 0xa7, 0xb8, 0x10, 0x9d, 0xad, 0x11, 0xd1, 0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8}
	assert.Equal(t, "2ed6657d-e927-568b-95e1-2665a8aea6a2", uuid5(domain, "www.example.com"))
}

func TestSitemap(t *testing.T) {
	type urls struct {
		XMLName xml.Name
		URL     []struct {
			Loc string `xml:"loc"`
		} `xml:"url"`
		Maps []struct {
			Loc string `xml:"loc"`
		} `xml:"sitemap"`
	}
	read := func(f File) (u urls) { require.NoError(t, xml.Unmarshal(f.Bytes, &u)); return u }
	book := smallBook(t, nil)
	files := Sitemap(book, []string{"index.html", "rivers/orua.html", "notes/a & b.html"})
	require.Len(t, files, 1)
	u := read(files[0])
	// sitemaps.org protocol 0.9: namespace, absolute addresses with entities escaped
	assert.Equal(t, xml.Name{Space: "http://www.sitemaps.org/schemas/sitemap/0.9", Local: "urlset"}, u.XMLName)
	require.Len(t, u.URL, 3)
	assert.Equal(t, "https://guide.example/flies/rivers/orua.html", u.URL[1].Loc)
	assert.Equal(t, "https://guide.example/flies/notes/a%20&%20b.html", u.URL[2].Loc)

	many := Sitemap(book, make([]string, 100_001))
	require.Len(t, many, 4, "an index and three files of at most 50,000 addresses")
	assert.Len(t, read(many[0]).Maps, 3)
	assert.Len(t, read(many[1]).URL, 50_000)
	assert.Len(t, read(many[3]).URL, 1)

	assert.Empty(t, Sitemap(bookOf(t, small(), true), []string{"index.html"}), "the members' edition is not for search engines")
	assert.Empty(t, Sitemap(demoBook(t, false), []string{"index.html"}), "the demo has no address")
}
