package page

// Every page read back as HTML: what screen readers, browsers and a strict content security
// policy need of it. The rules are those of the HTML standard and of WCAG 2.2 as named beside them.

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"guidegen/build/draw"
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
	"guidegen/templates"
)

func guidesToDraw(t *testing.T) map[string]*figures.Book {
	return map[string]*figures.Book{"demo": demoBook(), "one fly": bookOf(t, oneFly()), "south": bookOf(t, south()), "many": bookOf(t, many(40))}
}

func TestEveryPageIsSound(t *testing.T) {
	for name, book := range guidesToDraw(t) {
		t.Run(name, func(t *testing.T) {
			pages := drawAll(t, book)
			assets, err := view.AssetFiles()
			require.NoError(t, err)
			known := map[string]map[string]bool{}
			docs := map[string]*html.Node{}
			for _, a := range assets {
				known[a.Address] = nil
			}
			generated, err := Generated(book, view.Deps{Site: fakeSite{Book: book}})
			require.NoError(t, err)
			for _, f := range generated {
				known[f.Address] = nil
			}
			words, err := lang.LoadWords("en")
			require.NoError(t, err)
			album, err := draw.New(book, words)
			require.NoError(t, err)
			for _, f := range album.Files() {
				known[f.Address] = nil
			}
			for _, x := range book.Edition.Photos {
				for _, s := range x.Picture.Sizes() {
					known[view.PhotoAddress(x, s)] = nil
				}
			}
			for address, text := range pages {
				doc, err := html.Parse(strings.NewReader(text))
				require.NoError(t, err)
				docs[address] = doc
				known[address] = ids(t, address, doc)
			}
			for address, doc := range docs {
				checkPage(t, address, doc)
				checkLinks(t, address, doc, known)
			}
		})
	}
}

func walk(n *html.Node, f func(*html.Node)) {
	f(n)
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		walk(c, f)
	}
}

func attr(n *html.Node, key string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val, true
		}
	}
	return "", false
}

func textOf(n *html.Node) string {
	var b strings.Builder
	walk(n, func(n *html.Node) {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
		}
	})
	return strings.TrimSpace(b.String())
}

func ids(t *testing.T, address string, doc *html.Node) map[string]bool {
	out := map[string]bool{}
	walk(doc, func(n *html.Node) {
		if id, ok := attr(n, "id"); ok {
			assert.NotEmpty(t, id, address)
			assert.NotContains(t, id, " ", address)
			assert.False(t, out[id], "%s: id %s stands twice", address, id)
			out[id] = true
		}
	})
	return out
}

var level = map[atom.Atom]int{atom.H1: 1, atom.H2: 2, atom.H3: 3, atom.H4: 4, atom.H5: 5, atom.H6: 6}

// policyOf is a page's Content Security Policy.
func policyOf(doc *html.Node) (policy string) {
	walk(doc, func(n *html.Node) {
		if v, _ := attr(n, "http-equiv"); v == "Content-Security-Policy" {
			policy, _ = attr(n, "content")
		}
	})
	return policy
}

func checkPage(t *testing.T, address string, doc *html.Node) {
	h1, last := 0, 0
	walk(doc, func(n *html.Node) {
		if n.Type != html.ElementNode {
			return
		}
		where := func(s string) string { return fmt.Sprintf("%s: %s <%s>", address, s, n.Data) }
		for _, a := range n.Attr {
			assert.False(t, strings.HasPrefix(a.Key, "on"), where("a handler on"))
			assert.NotEqual(t, "style", a.Key, where("a style attribute on")) // Content Security Policy Level 3, style-src
			if a.Key == "href" || a.Key == "src" {
				assert.False(t, strings.HasPrefix(strings.ToLower(a.Val), "javascript:"), where("a script as link"))
			}
			if a.Key == "aria-labelledby" || a.Key == "aria-describedby" {
				for _, id := range strings.Fields(a.Val) {
					assert.True(t, hasID(doc, id), where("no "+id+" for"))
				}
			}
		}
		if l := level[n.DataAtom]; l > 0 {
			if l == 1 {
				h1++
			}
			assert.LessOrEqual(t, l, last+1, where("a level is skipped before "+textOf(n)))
			assert.NotEmpty(t, textOf(n), where("empty"))
			last = l
		}
		switch n.DataAtom {
		case atom.Html:
			lang, _ := attr(n, "lang")
			assert.NotEmpty(t, lang, where("no lang on")) // WCAG 3.1.1
			b, _ := attr(n, "data-built")
			assert.Equal(t, "2026-11-20", b, where("no date on"))
			_, ok := attr(n, "data-records-to")
			assert.True(t, ok, where("no records date on"))
		case atom.Style:
			assert.Fail(t, where("inline"))
		case atom.Script:
			src, ok := attr(n, "src")
			if !ok && address == view.NotFoundPage { // it can't know the way to a file; its policy names the script by its hash
				sum := sha256.Sum256([]byte(n.FirstChild.Data))
				assert.Contains(t, policyOf(doc), "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'", where("inline"))
				break
			}
			assert.True(t, ok && src != "" && n.FirstChild == nil, where("inline"))
		case atom.Template:
			text, _ := attr(n, "data-json")
			assert.True(t, json.Valid([]byte(text)), where("no data in"))
		case atom.Table:
			assert.NotNil(t, find(n, atom.Caption), where("no caption in"))
		case atom.Th:
			scope, _ := attr(n, "scope")
			assert.Contains(t, []string{"col", "row", "colgroup", "rowgroup"}, scope, where("no scope on"))
		case atom.Data:
			v, _ := attr(n, "value")
			b, _ := attr(n, "data-basis")
			assert.NotEmpty(t, v, where("no value on"))
			assert.NotEmpty(t, b, where("no ground of"))
		case atom.Time:
			v, _ := attr(n, "datetime")
			assert.Regexp(t, `^(\d\d-\d\d|\d{4}-\d\d-\d\d)$`, v, where("no date on")) // HTML: yearless date, date
		case atom.Input, atom.Select, atom.Textarea:
			assert.True(t, labelled(n, doc), where("no label for")) // WCAG 4.1.2
		case atom.A:
			assert.NotEmpty(t, textOf(n), where("nothing to read in"))
		}
	})
	assert.Equal(t, 1, h1, address+": one h1")
}

func hasID(doc *html.Node, id string) bool {
	found := false
	walk(doc, func(n *html.Node) {
		if v, ok := attr(n, "id"); ok && v == id {
			found = true
		}
	})
	return found
}

func find(n *html.Node, a atom.Atom) (found *html.Node) {
	walk(n, func(c *html.Node) {
		if c.DataAtom == a && found == nil {
			found = c
		}
	})
	return found
}

func labelled(n, doc *html.Node) bool {
	for p := n.Parent; p != nil; p = p.Parent {
		if p.DataAtom == atom.Label && textOf(p) != "" {
			return true
		}
	}
	if l, ok := attr(n, "aria-label"); ok && l != "" {
		return true
	}
	id, _ := attr(n, "id")
	found := false
	walk(doc, func(x *html.Node) {
		if f, ok := attr(x, "for"); ok && x.DataAtom == atom.Label && f == id && id != "" {
			found = true
		}
	})
	return found
}

func checkLinks(t *testing.T, address string, doc *html.Node, known map[string]map[string]bool) {
	walk(doc, func(n *html.Node) {
		for _, key := range []string{"href", "src"} {
			v, ok := attr(n, key)
			if !ok || n.Type != html.ElementNode {
				continue
			}
			u, err := url.Parse(v)
			if !assert.NoError(t, err, address) {
				continue
			}
			if u.Host != "" {
				rel, _ := attr(n, "rel")
				assert.Contains(t, rel, "noopener", "%s: %s leads out", address, v)
				continue
			}
			to := path.Join(path.Dir(address), u.Path)
			if u.Path == "" {
				to = address
			}
			anchors, exists := known[to]
			if !assert.True(t, exists, "%s: %s leads nowhere", address, v) || u.Fragment == "" {
				continue
			}
			assert.True(t, anchors[u.Fragment], "%s: no anchor for %s", address, v)
		}
	})
}

// A name that would be a script is text wherever it stands.
func TestHostileNamesDoNothing(t *testing.T) {
	for address, page := range drawAll(t, bookOf(t, south())) {
		assert.NotContains(t, page, "<script>alert", address)
		assert.NotContains(t, page, `<img src=x`, address)
		assert.NotContains(t, page, "onclick=alert(1)>raw", address)
	}
}

// What a water's page weighs over the wire with its styles and scripts, without photos and the chart library.
func TestRiverPagesAreLight(t *testing.T) {
	const most = 60 << 10
	pages := drawAll(t, demoBook())
	asked := regexp.MustCompile(`(?:href|src)="\.\./(assets/[^"]+\.(?:css|js))"`)
	for address, page := range pages {
		if !strings.HasPrefix(address, "rivers/") {
			continue
		}
		total := zipped(t, []byte(page))
		var files []string
		for _, m := range asked.FindAllStringSubmatch(page, -1) {
			files = append(files, m[1])
		}
		slices.Sort(files)
		all, err := view.AssetFiles()
		require.NoError(t, err)
		for _, f := range slices.Compact(files) {
			for _, a := range all {
				if a.Address == f {
					b, err := templates.Files.ReadFile(a.File)
					require.NoError(t, err)
					total += zipped(t, b)
				}
			}
		}
		t.Logf("%s %d", address, total)
		assert.LessOrEqual(t, total, most, address)
	}
}

func zipped(t *testing.T, b []byte) int {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	require.NoError(t, err)
	_, err = w.Write(b)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return out.Len()
}

// Files hold absolute dates only: words of relative time belong to the script alone.
func TestNothingSaysNow(t *testing.T) {
	words := regexp.MustCompile(`(?i)\b(right now|this week|this year|this fortnight|today's|at present|currently|tonight)\b`)
	for address, page := range drawAll(t, demoBook()) {
		if strings.HasPrefix(address, "species/") || strings.HasPrefix(address, "notes/") {
			continue // the club's own words
		}
		doc, err := html.Parse(strings.NewReader(page))
		require.NoError(t, err)
		assert.Empty(t, words.FindAllString(textOf(doc), -1), address)
	}
}

func TestPagesAreTheSameEachTime(t *testing.T) {
	a, b := drawAll(t, demoBook()), drawAnew(t, demoBook())
	for address := range a {
		assert.True(t, a[address] == b[address], address)
	}
}
