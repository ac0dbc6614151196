package browser

// Every file of the site read back as HTML, whatever package drew it: what a page needs for readers of
// every kind, and nothing that is asked for from elsewhere. The rules are those of the HTML standard and
// of WCAG 2.2, named beside them.

import (
	"crypto/sha256"
	"encoding/base64"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func has(n *html.Node, key string) bool {
	for _, a := range n.Attr {
		if a.Key == key {
			return true
		}
	}
	return false
}

func text(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return strings.TrimSpace(b.String())
}

func child(n *html.Node, tag atom.Atom) bool {
	for d := range n.Descendants() {
		if d.DataAtom == tag {
			return true
		}
	}
	return false
}

// complaints says what is wrong with a page.
func complaints(page string) (out []string) {
	say := func(rule string, n *html.Node) { out = append(out, rule+": <"+n.Data+"> "+attribute(n, "id")) }
	doc, err := html.Parse(strings.NewReader(page))
	if err != nil {
		return []string{err.Error()}
	}
	if !strings.HasPrefix(strings.ToLower(page), "<!doctype html>") {
		out = append(out, "no doctype")
	}
	ids, named, policy := map[string]bool{}, map[string]bool{}, ""
	for n := range doc.Descendants() {
		if attribute(n, "http-equiv") == "Content-Security-Policy" {
			policy = attribute(n, "content")
		}
		if id := attribute(n, "id"); id != "" {
			if ids[id] {
				say("an id stands twice", n) // HTML, global attributes
			}
			ids[id] = true
		}
		if n.DataAtom == atom.Label {
			named[attribute(n, "for")] = true
		}
	}
	h1, level := 0, 0
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		if l := strings.Index("h1h2h3h4h5h6", n.Data); len(n.Data) == 2 && l >= 0 {
			l = l/2 + 1
			if l == 1 {
				h1++
			}
			if l > level+1 {
				say("a level of headings is skipped", n) // WCAG 1.3.1
			}
			level = l
		}
		for _, a := range n.Attr {
			switch {
			case a.Key == "style" || strings.HasPrefix(a.Key, "on"):
				say("inline "+a.Key, n) // Content Security Policy Level 3
			case asksFor(n, a.Key):
				for _, part := range strings.Split(a.Val, ",") {
					address, _, _ := strings.Cut(strings.TrimSpace(part), " ")
					if u, err := url.Parse(address); err != nil || u.Host != "" || u.Scheme != "" && u.Scheme != "data" {
						say("asks for "+address, n)
					}
				}
			}
		}
		switch n.DataAtom {
		case atom.Html:
			if attribute(n, "lang") == "" {
				say("no language", n) // WCAG 3.1.1
			}
		case atom.Script:
			if attribute(n, "src") != "" {
				break
			}
			hash := ""
			if n.FirstChild != nil {
				sum := sha256.Sum256([]byte(n.FirstChild.Data))
				hash = "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
			}
			if hash == "" || !strings.Contains(policy, hash) { // a block of data counts as a script too
				say("inline script", n)
			}
		case atom.Style, atom.Base, atom.Iframe, atom.Object, atom.Embed:
			say("not for our pages", n)
		case atom.Img:
			if !has(n, "alt") || attribute(n, "width") == "" || attribute(n, "height") == "" {
				say("a picture without alternative text or size", n) // WCAG 1.1.1
			}
		case atom.Table:
			if !child(n, atom.Caption) {
				say("a table without a caption", n)
			}
		case atom.Th:
			if attribute(n, "scope") == "" {
				say("a heading cell without a scope", n) // WCAG 1.3.1
			}
		case atom.Input, atom.Select, atom.Textarea:
			inside := false
			for p := range n.Ancestors() {
				inside = inside || p.DataAtom == atom.Label && text(p) != ""
			}
			if !inside && attribute(n, "aria-label") == "" && (attribute(n, "id") == "" || !named[attribute(n, "id")]) {
				say("no label", n) // WCAG 4.1.2
			}
		case atom.Button, atom.A:
			if text(n) == "" && attribute(n, "aria-label") == "" && has(n, "href") == (n.DataAtom == atom.A) {
				say("nothing to read", n) // WCAG 2.4.4
			}
		}
	}
	if h1 != 1 {
		out = append(out, "not one h1")
	}
	return out
}

// asksFor reports whether a browser asks for what an attribute names without being told to by the reader.
func asksFor(n *html.Node, key string) bool {
	switch key {
	case "src", "srcset", "poster", "data", "background", "action", "formaction", "data-chart-library", "data-options", "data-search":
		return true
	case "href":
		return n.DataAtom == atom.Link && attribute(n, "rel") != "canonical" || n.Namespace == "svg"
	}
	return false
}

func TestEveryFileIsSoundHTML(t *testing.T) {
	titles := map[string]string{}
	for _, p := range pages(t) {
		page, err := os.ReadFile(filepath.Join(site(t), filepath.FromSlash(p)))
		require.NoError(t, err)
		assert.Empty(t, complaints(string(page)), p)
		doc, err := html.Parse(strings.NewReader(string(page)))
		require.NoError(t, err)
		for n := range doc.Descendants() {
			if n.DataAtom == atom.Title && n.Namespace == "" {
				assert.NotEmpty(t, text(n), p)
				assert.Empty(t, titles[text(n)], "%s has the title of another page: %s", p, text(n)) // WCAG 2.4.2
				titles[text(n)] = p
			}
		}
	}
}

func TestComplaints(t *testing.T) {
	const sound = `<!doctype html><html lang="en"><title>t</title><h1>t</h1>`
	assert.Empty(t, complaints(sound))
	for _, c := range []struct{ html, want string }{
		{`<p>t`, "no doctype"}, {`<p>t`, "no language"}, {`<p>t`, "not one h1"},
		{sound + `<h1>u</h1>`, "not one h1"}, {sound + `<h3>u</h3>`, "skipped"}, {sound + `<p id=a><p id=a>`, "twice"},
		{sound + `<p style="x">`, "inline style"}, {sound + `<p onclick="x">`, "inline onclick"}, {sound + `<script>x</script>`, "inline script"},
		{sound + `<style>x</style>`, "not for our pages"}, {sound + `<img src="a.png" width=1 height=1>`, "alternative"},
		{sound + `<img alt="" src="//elsewhere.example/a.png" width=1 height=1>`, "asks for //elsewhere"},
		{sound + `<img alt="" srcset="a.png 1w, https://elsewhere.example/a.png 2w" width=1 height=1>`, "asks for https://elsewhere"},
		{sound + `<link rel="stylesheet" href="https://elsewhere.example/a.css">`, "asks for https://elsewhere"},
		{sound + `<table><tr><td>x</table>`, "caption"}, {sound + `<table><caption>c</caption><tr><th>x</table>`, "scope"},
		{sound + `<input>`, "no label"}, {sound + `<label for=b>x</label><input id=a>`, "no label"}, {sound + `<a href="x"></a>`, "nothing to read"}, {sound + `<button></button>`, "nothing to read"},
	} {
		assert.Contains(t, strings.Join(complaints(c.html), "\n"), c.want, c.html)
	}
	assert.Empty(t, complaints(sound+`<label>x <input></label><label for=b>x</label><input id=b><a href="https://elsewhere.example">x</a>`))
}
