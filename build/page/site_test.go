package page

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"guidegen/build/view"
)

// A host shows 404.html at whatever address was asked for: its links must lead from there, too, once the
// guide says where it will stand.
func TestThePageForAMissingAddress(t *testing.T) {
	for address, root := range map[string]string{
		"": "", "https://club.example": "/", "https://club.example/our/flies": "/our/flies/", "https://club.example/fliegen f%C3%BCr/": "/fliegen%20f%C3%BCr/",
	} {
		files := oneFly()
		files["guide.yaml"] = file("format: 1\nname: One fly\naddress: " + strings.ReplaceAll(address, " ", "%20") + "\n")
		if address == "" {
			files["guide.yaml"] = file("format: 1\nname: One fly\n")
		}
		pages := drawAll(t, bookOf(t, files))
		doc, err := html.Parse(strings.NewReader(pages[view.NotFoundPage]))
		require.NoError(t, err)
		links := map[string]bool{}
		walk(doc, func(n *html.Node) {
			for _, key := range []string{"href", "src"} {
				if v, ok := attr(n, key); ok && v != "#main" {
					links[v] = true
					assert.True(t, strings.HasPrefix(v, root) && !strings.HasPrefix(v, ".."), "%s: %s", address, v)
				}
			}
		})
		for _, to := range []string{view.SearchPage, view.FrontPage, "rivers/beck.html", view.Assets + "site.css", view.Assets + "offline.js"} {
			assert.True(t, links[root+to], "%s: no link to %s", address, to)
		}
		for other, page := range pages {
			if other != view.NotFoundPage {
				assert.NotContains(t, page, "data-root", other)
				assert.NotContains(t, page, `="/`, other)
			}
		}
	}
}

// Programs that follow a page find the feed and the calendar by themselves.
func TestAlternates(t *testing.T) {
	book := bookOf(t, oneFly())
	sheets, err := All(book, view.Deps{Site: fakeSite{Book: book}, Downloads: []view.Download{{Address: "changes.xml", What: "Changes", Kind: "Atom"}, {Address: "calendar/beck.ics", What: "The year of Beck", Kind: "iCalendar"}}})
	require.NoError(t, err)
	for _, s := range sheets {
		d, err := s.Draw()
		require.NoError(t, err)
		doc, err := html.Parse(bytes.NewReader(d.HTML))
		require.NoError(t, err)
		var got []string
		walk(doc, func(n *html.Node) {
			if rel, _ := attr(n, "rel"); n.Data == "link" && rel == "alternate" {
				kind, _ := attr(n, "type")
				title, _ := attr(n, "title")
				href, _ := attr(n, "href")
				got = append(got, strings.Join([]string{href, kind, title}, "|"))
			}
		})
		switch s.Address { // HTML, section "alternate"; media types of RFC 4287 (section 8) and RFC 5545 (section 8.1)
		case view.FrontPage, view.RecordsPage, view.CorrectionsPage, view.ChangesPage:
			assert.Equal(t, []string{"changes.xml|application/atom+xml|Changes"}, got, s.Address)
		case "rivers/beck.html":
			assert.Equal(t, []string{"../calendar/beck.ics|text/calendar|The year of Beck"}, got)
		default:
			assert.Empty(t, got, s.Address)
		}
	}
}
