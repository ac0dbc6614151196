// Package share writes what others take away: the figures as data files with
// their schema, a feed of changes, a calendar per water, the site's map and
// the records as a Darwin Core archive. It reckons nothing: every number is
// one of the figures the pages print.
package share

import (
	"embed"
	"io/fs"

	"guidegen/build/figures"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/species"
)

// File is one file of the site.
type File struct {
	Path  string // slash path inside the site
	Bytes []byte
}

// Addresses of the files that every site has beside its pages.
const (
	GuideData   = "data/guide.json"
	GuideSchema = "data/guide.schema.json"
	RiverSchema = "data/river.schema.json"
	Archive     = "data/records.zip"
	ChangesFeed = "changes.xml"
	SiteMap     = "sitemap.xml"
)

// RiverData is the address of a water's figures.
func RiverData(w *figures.Water) string { return riverData(w.Address) }

func riverData(address string) string { return "data/rivers/" + address + ".json" }

// Calendar is the address of a water's calendar.
func Calendar(w *figures.Water) string { return "calendar/" + w.Address + ".ics" }

//go:embed schema
var schemas embed.FS

// Words words what people read in these files, in the language of the site.
type Words interface {
	Language() string // its tag (BCP 47)
	Plain(key string, pairs ...any) string
	Or(list, word string) string
	Amount(content.Figure) string // with its unit
	List(items []string) string   // "a, b and c"
	Day(calendar.Day) string      // "" for none, as Date
	Date(calendar.Date) string
	Cell(calendar.Cell) string
	Case(stage species.Stage, sex species.Sex, flight string) string // of what is known
}

// Files makes every file but the site's map, for which the pages must be
// known: see Sitemap. old is the site as it was published before, nil where
// there is none; changes are told from it. Same book and old site, same bytes.
// The news are what the feed of changes says, for a page.
func Files(book *figures.Book, words Words, old fs.FS) ([]File, []News, error) {
	guide := guideOf(book)
	data, err := encode(guide)
	if err != nil {
		return nil, nil, err
	}
	out := []File{{GuideData, data}}
	for _, s := range []struct{ file, address string }{{"guide", GuideSchema}, {"river", RiverSchema}} {
		b, err := schemas.ReadFile("schema/" + s.file + ".schema.json")
		if err != nil {
			return nil, nil, err
		}
		out = append(out, File{s.address, b})
	}
	var waters []File
	for _, w := range book.Waters {
		b, err := encode(riverOf(book, w))
		if err != nil {
			return nil, nil, err
		}
		waters = append(waters, File{RiverData(w), b})
		out = append(out, waters[len(waters)-1])
		if c := calendarOf(book, words, w); c != nil {
			out = append(out, File{Calendar(w), c})
		}
	}
	if c := planCalendar(book, words); c != nil {
		out = append(out, File{SeasonPlan, c})
	}
	was := readSite(book, old, words)
	feed, news, err := feedOf(book, words, was.changes(data, waters), was)
	if err != nil {
		return nil, nil, err
	}
	zip, err := archive(book, words)
	if err != nil {
		return nil, nil, err
	}
	return append(out, File{ChangesFeed, feed}, File{Archive, zip}), news, nil
}
