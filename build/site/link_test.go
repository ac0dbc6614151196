package site

import (
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestRelative(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"index.html", "rivers/a.html", "rivers/a.html"},
		{"rivers/a.html", "index.html", "../index.html"},
		{"rivers/a.html", "species/b.html#hours", "../species/b.html#hours"},
		{"rivers/a.html", "rivers/b.html", "b.html"},
		{"rivers/a.html", "rivers/a.html", "a.html"},
		{"rivers/a.html", "rivers/a.html#year", "#year"},
		{"rivers/a.html", "#year", "#year"},
		{"a/b/c.html", "a/d/e.html", "../d/e.html"},
		{"a/b.html", "a/b/c.html", "b/c.html"},
		{"a/b.html", "a", "../a"},
		{"index.html", "a b:c.html#ü", "./a%20b:c.html#%C3%BC"},
	} {
		assert.Equal(t, c.want, Relative(c.from, c.to), "%s → %s", c.from, c.to)
	}
}

// Against net/url's reference resolution (RFC 3986, section 5.2), from two subfolders and from disk.
func TestRelativeResolves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		segment := rapid.StringMatching(`[a-cé: %#]{0,2}[a-c]`)
		address := rapid.Custom(func(t *rapid.T) string {
			return strings.ReplaceAll(strings.Join(rapid.SliceOfN(segment, 1, 4).Draw(t, "segments"), "/"), "#", "") + ".html"
		})
		from, to := address.Draw(t, "from"), address.Draw(t, "to")
		for _, base := range []string{"https://club.example/", "https://club.example/x/y/", "file:///home/x/"} {
			page, err := url.Parse(base)
			require.NoError(t, err)
			link, err := url.Parse(Relative(from, to))
			require.NoError(t, err)
			got := page.JoinPath((&url.URL{Path: from}).EscapedPath()).ResolveReference(link)
			assert.Equal(t, page.Path+to, got.Path)
		}
	})
}

func TestMovedPage(t *testing.T) {
	m := Moved{
		Redirect: Redirect{Old: "species/old.html", To: "rivers/<new>.html"},
		Lang:     "en", Title: `Dun & "spinner"`, Sentence: "This page has moved to",
		RecordsTo: "2026-05-01", Built: "2026-06-01",
	}
	page := m.Page()
	assert.Contains(t, string(page), `content="0; url=../rivers/%3Cnew%3E.html"`)
	assert.Contains(t, string(page), `<a href="../rivers/%3Cnew%3E.html">Dun &amp; &#34;spinner&#34;</a>`)
	assert.Empty(t, Verify([]Notes{Read(m.Old, page), marked(m.To, "")}))

	// The link, the canonical address and the refresh are each verified.
	notes := Read(m.Old, page)
	assert.Len(t, notes.Refs, 3)
	assert.Len(t, Verify([]Notes{notes}), 3)
}
