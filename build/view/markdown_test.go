package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"guidegen/content"
	"guidegen/species"
)

func proseOf(t testing.TB, markdown string) (string, []content.Problem) {
	book := demoBook()
	p, err := NewPrinter(book, Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	out, problems := p.Prose("notes/here.html", species.Body{Markdown: markdown, File: "notes/here.md", Offset: 100}, 2, "t")
	return string(out.HTML), problems
}

func TestProseIsSafe(t *testing.T) {
	out, _ := proseOf(t, "<script>alert(1)</script>\n\n<b onclick=x>raw</b> [a](javascript:alert(1)) [b](data:text/html,x) <style>x</style>\n")
	for _, bad := range []string{"<script", "onclick", "javascript:", "data:text", "<style"} {
		assert.NotContains(t, out, bad)
	}
}

func TestProseHeadings(t *testing.T) {
	out, _ := proseOf(t, "# One\n\n### Deep\n\n## Two\n\n#### Deeper\n\n# One\n\n## 漢字\n\n## !!\n")
	for _, want := range []string{`<h2 id="t-one">One`, `<h3 id="t-deep">Deep`, `<h3 id="t-two">Two`, `<h4 id="t-deeper">`, `<h2 id="t-one-2">One`, `<h3 id="t">!!`} {
		assert.Contains(t, out, want, "a level is never skipped, an id never twice")
	}
}

func TestProseLinks(t *testing.T) {
	text := "See [the river](../rivers/ullavane.yaml), [sampling](how-to-sample.md#measuring), [none](../species/no-such.md) and [out](https://example.org/).\n"
	out, problems := proseOf(t, text)
	assert.Contains(t, out, `<a href="../rivers/ullavane.html">the river</a>`)
	assert.Contains(t, out, `<a href="../notes/how-to-sample.html#t-measuring">`)
	assert.Contains(t, out, ", none and", "a dead link stands as text")
	assert.Contains(t, out, `<a href="https://example.org/" rel="external noopener">out</a>`)
	require.Len(t, problems, 1)
	assert.Equal(t, "dead-link", problems[0].ID)
	assert.Equal(t, content.Place{File: "notes/here.md", Offset: 100 + strings.Index(text, "../species/no-such.md"), Len: len("../species/no-such.md")}, problems[0].At)
}

// What a link may not say is an error of the guide with its place, since the site would be refused.
func TestLinksThatLeadNowhere(t *testing.T) {
	for dest, want := range map[string]string{
		"javascript:alert(1)": "dead-link", "JaVaScRiPt:alert(1)": "dead-link", "data:text/html,x": "dead-link", "vbscript:x": "dead-link", "file:///etc/passwd": "dead-link",
		"ftp://example.org/": "dead-link", "//example.org/x": "dead-link", "http:x": "dead-link", "%zz": "dead-link", "http://[::1": "dead-link", "/etc/passwd": "dead-link",
		"../..": "dead-link", "how-to-sample": "dead-link", "#nowhere": "dead-anchor", "how-to-sample.md#nowhere": "dead-anchor", "../rivers/ullavane.yaml#beats": "dead-anchor",
		"#": "", "#here-i-am": "", "how-to-sample.md#measuring": "", "how-to-sample.md": "", "https://example.org/?a=1#b": "", "HTTP://EXAMPLE.ORG": "", "mailto:a@example.org": "", "tel:+1": "",
	} {
		text := "# Here I am\n\nA [link](" + dest + ") of mine.\n"
		out, problems := proseOf(t, text)
		if want == "" {
			assert.Empty(t, problems, dest)
			assert.Contains(t, out, "<a href=", dest)
			continue
		}
		require.Len(t, problems, 1, dest)
		assert.Equal(t, want, problems[0].ID, dest)
		assert.Equal(t, content.Error, problems[0].Grade)
		assert.Equal(t, content.Place{File: "notes/here.md", Offset: 100 + strings.Index(text, dest), Len: len(dest)}, problems[0].At, dest)
	}
}

// An address between < and > is a link like any other.
func TestBareAddresses(t *testing.T) {
	out, problems := proseOf(t, "See <https://example.org/?a=1&b=2> or <a@example.org>.\n")
	assert.Empty(t, problems)
	assert.Contains(t, out, `<a href="https://example.org/?a=1&amp;b=2" rel="external noopener">https://example.org/?a=1&amp;b=2</a>`)
	assert.Contains(t, out, `<a href="mailto:a@example.org">a@example.org</a>`)
	text := "Do not <javascript:alert(1)>.\n"
	out, problems = proseOf(t, text)
	assert.NotContains(t, out, "<a")
	require.Len(t, problems, 1)
	assert.Equal(t, 100+strings.Index(text, "javascript"), problems[0].At.Offset)
}

func TestProseTables(t *testing.T) {
	out, _ := proseOf(t, "| a | b |\n|:--|--:|\n| 1 | 2 |\n")
	assert.NotContains(t, out, "style=")
	assert.Contains(t, out, `<th scope="col">a</th>`)
	assert.Contains(t, out, `role="group"`)
}

// A few kilobytes of bars can grow to megabytes of table.
func TestProseIsCapped(t *testing.T) {
	out, problems := proseOf(t, strings.Repeat("|a", 2000)+"|\n"+strings.Repeat("|-", 2000)+"|\n"+strings.Repeat("|b\n", 2000))
	assert.Empty(t, out)
	require.NotEmpty(t, problems)
	assert.Equal(t, "text-too-long", problems[0].ID)
}

func TestPicturesInTextAreNotPrinted(t *testing.T) {
	out, problems := proseOf(t, "![a dun](photos/dun.jpg)\n")
	assert.Equal(t, "<p>a dun</p>\n", out)
	require.Len(t, problems, 1)
	assert.Equal(t, "picture-in-text", problems[0].ID)
}

func FuzzProse(f *testing.F) {
	f.Add("# a\n\n[x](y.md \"t\") ![i](j)\n")
	f.Add("| a |\n|---|\n| <b> |\n")
	f.Add("[a]: javascript:alert(1)\n\n[a] <javascript:alert(1)>\n")
	f.Fuzz(func(t *testing.T, s string) {
		out, problems := proseOf(t, s)
		for _, p := range problems {
			assert.GreaterOrEqual(t, p.At.Offset, 100)
			assert.LessOrEqual(t, p.At.Offset+p.At.Len, 100+max(1, len(s)), "the place lies in the file")
		}
		doc, err := html.Parse(strings.NewReader(out))
		require.NoError(t, err)
		for n := range doc.Descendants() {
			if n.Type != html.ElementNode {
				continue
			}
			assert.NotContains(t, []string{"script", "style", "iframe", "img", "object"}, n.Data)
			for _, a := range n.Attr {
				assert.False(t, strings.HasPrefix(a.Key, "on"))
				assert.False(t, strings.HasPrefix(strings.ToLower(strings.TrimSpace(a.Val)), "javascript:"))
			}
		}
	})
}
