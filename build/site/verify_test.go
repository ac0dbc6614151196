package site

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// marked returns the notes of a page that has its marks.
func marked(address, body string) Notes {
	return Read(address, []byte(`<!DOCTYPE html><html lang="en" data-records-to="2026-05-01" data-built="2026-06-01"><body>`+body+`</body></html>`))
}

func kinds(f Failures) []Kind {
	var out []Kind
	for _, one := range f {
		out = append(out, one.Kind)
	}
	return out
}

func TestVerifyOnePage(t *testing.T) {
	for name, c := range map[string]struct {
		body string
		want []Kind
	}{
		"nothing":                          {``, nil},
		"a page":                           {`<a href="../rivers/other.html">x</a>`, nil},
		"a page with a query":              {`<a href="../rivers/other.html?d=1">x</a>`, nil},
		"its own folder":                   {`<a href="page.html">x</a>`, nil},
		"itself":                           {`<a href="">x</a>`, nil},
		"missing page":                     {`<a href="../rivers/none.html">x</a>`, []Kind{DeadLink}},
		"letter case of a page":            {`<a href="../rivers/Other.html">x</a>`, []Kind{DeadLink}},
		"escaped page":                     {`<a href="../rivers/%6Fther.html">x</a>`, nil},
		"bad escape":                       {`<a href="../rivers/%6.html">x</a>`, []Kind{DeadLink}},
		"space around":                     {"<a href=' ../rivers/other.html\n'>x</a>", nil},
		"bare folder":                      {`<a href="../rivers/">x</a>`, []Kind{DeadLink}},
		"the folder above":                 {`<a href="..">x</a>`, []Kind{DeadLink}},
		"the host's root":                  {`<a href="/rivers/other.html">x</a>`, []Kind{DeadLink}},
		"out of the site and back":         {`<a href="../../site/rivers/other.html">x</a>`, []Kind{DeadLink}},
		"doubled slash":                    {`<a href="../rivers//other.html">x</a>`, []Kind{DeadLink}},
		"anchor here":                      {`<p id="a">x</p><a href="#a">x</a>`, nil},
		"anchor there":                     {`<a href="../rivers/other.html#hours">x</a>`, nil},
		"no anchor there":                  {`<a href="../rivers/other.html#sizes">x</a>`, []Kind{DeadAnchor}},
		"no anchor here":                   {`<a href="#b">x</a>`, []Kind{DeadAnchor}},
		"letter case of an anchor":         {`<a href="../rivers/other.html#Hours">x</a>`, []Kind{DeadAnchor}},
		"escaped anchor":                   {`<a href="../rivers/other.html#%C3%BCber">x</a>`, nil},
		"anchor unescaped":                 {`<a href="../rivers/other.html#über">x</a>`, nil},
		"anchor with a percent sign":       {`<p id="80%25">x</p><a href="#80%25">x</a>`, nil},
		"escaped anchor missing":           {`<a href="../rivers/other.html#%C3%9Cber">x</a>`, []Kind{DeadAnchor}},
		"character reference in an anchor": {`<p id="a&amp;b">x</p><a href="#a&amp;b">x</a>`, nil},
		"top":                              {`<a href="#">x</a><a href="#top">x</a>`, nil},
		"fragment of no page":              {`<a href="../files/year.svg#view">x</a><a href="../files/a.pdf#page=2">x</a>`, nil},
		"anchor of a drawing":              {`<a href="../files/year.svg#none">x</a>`, []Kind{DeadAnchor}},
		"double id":                        {`<p id="a"><b id="a">x</b></p><i id="A">x</i>`, []Kind{DoubleID}},
		"ids in scripts and comments":      {`<p id="a"></p><script>'<p id="a">'</script><!-- <p id="a"> --><textarea><p id="a"></textarea>`, nil},
		"ids for those without scripts":    {`<p id="a"></p><noscript><p id="a"></p></noscript>`, []Kind{DoubleID}},
		"id with a space":                  {`<p id="a b"></p>`, []Kind{Fault}},

		"link out":                {`<a href="https://example.org/" rel="external">x</a>`, nil},
		"link out, no opener":     {`<a rel="nofollow NoOpener" href="http://example.org/">x</a>`, nil},
		"link out, unmarked":      {`<a href="https://example.org/">x</a>`, []Kind{ForeignHost}},
		"link out, half a word":   {`<a href="https://example.org/" rel="externally">x</a>`, []Kind{ForeignHost}},
		"link out, no scheme":     {`<a href="//example.org/x">x</a>`, []Kind{ForeignHost}},
		"link out, backslashes":   {`<a href="\\example.org/x">x</a>`, []Kind{ForeignHost}},
		"link out, no host":       {`<a href="https:///x" rel="external">x</a>`, []Kind{DeadLink}},
		"ping":                    {`<a href="https://example.org/" rel="external" ping="https://count.example/">x</a>`, []Kind{ForeignHost}},
		"post and telephone":      {`<a href="mailto:a@example.org">x</a><a href="tel:112">x</a>`, nil},
		"script as an address":    {`<a href="javascript:alert(1)" rel="external">x</a>`, []Kind{Fault}},
		"script, broken up":       {"<a href='java\nscript:alert(1)'>x</a>", []Kind{Fault}},
		"drive letter":            {`<a href="C:/x.html">x</a>`, []Kind{Fault}},
		"picture":                 {`<img src="../files/year.svg" alt="">`, nil},
		"missing picture":         {`<img src="../files/none.svg" alt="">`, []Kind{DeadLink}},
		"empty picture":           {`<img src="" alt="">`, []Kind{DeadLink}},
		"picture in the address":  {`<img src="data:image/gif;base64,R0lGOD//lhAQ=" alt="">`, nil},
		"foreign picture":         {`<img src="https://example.org/a.png" rel="external" alt="">`, []Kind{ForeignHost}},
		"foreign picture, no s.":  {`<img src="//example.org/a.png" alt="">`, []Kind{ForeignHost}},
		"pictures to choose from": {`<img src="../files/year.svg" srcset="../files/year.svg 1x, https://example.org/a.png 2x" alt="">`, []Kind{ForeignHost}},
		"foreign script":          {`<script src="http://example.org/a.js"></script>`, []Kind{ForeignHost}},
		"foreign frame":           {`<iframe src="https://example.org/"></iframe>`, []Kind{ForeignHost}},
		"foreign form":            {`<form action="https://example.org/"><button formaction="https://example.org/x">x</button></form>`, []Kind{ForeignHost, ForeignHost}},
		"form":                    {`<form action=""></form>`, nil},
		"foreign stylesheet":      {`<link rel="stylesheet" href="https://example.org/a.css">`, []Kind{ForeignHost}},
		"foreign warm-up":         {`<link rel="preconnect" href="https://example.org">`, []Kind{ForeignHost}},
		"canonical elsewhere":     {`<link href="https://example.org/a.html" rel="canonical">`, nil},
		"alternate stylesheet":    {`<link href="https://example.org/a.css" rel="alternate stylesheet">`, []Kind{ForeignHost}},
		"feed missing":            {`<link href="../feed.xml" rel="alternate">`, []Kind{DeadLink}},
		"foreign refresh":         {`<meta content="0; URL='https://example.org/'" http-equiv="Refresh">`, []Kind{ForeignHost}},
		"description":             {`<meta name="description" content="url=https://example.org/">`, nil},
		"base":                    {`<base target="_self">`, []Kind{Fault}},
		"foreign in a style":      {`<style>/* url(https://a.example/) */ p { background: URL( "https://example.org/a.png" ) }</style>`, []Kind{ForeignHost}},
		"import in a style":       {`<style>@import 'https://example.org/a.css';</style>`, []Kind{ForeignHost}},
		"import of a url":         {`<style>@import url(//example.org/a.css);</style>`, []Kind{ForeignHost}},
		"escaped in a style":      {`<style>p { background: url(\68 ttps://example.org/a.png) }</style>`, []Kind{ForeignHost}},
		"style attribute":         {`<p style="background: url(https://example.org/a.png)">x</p>`, []Kind{ForeignHost}},
		"pattern":                 {`<svg><pattern id="p"/><rect fill="url(#p)"/></svg>`, nil},
		"pattern missing":         {`<svg><pattern id="P"/><rect fill="url(#p)"/></svg>`, []Kind{DeadAnchor}},
		"use of a symbol":         {`<svg><symbol id="s"/><use xlink:href="#s"/><use href="#t"/></svg>`, []Kind{DeadAnchor}},
	} {
		t.Run(name, func(t *testing.T) {
			got := Verify([]Notes{
				marked("species/page.html", c.body),
				marked("rivers/other.html", `<h2 id="hours">x</h2><h2 id="über">x</h2>`),
				Read("files/year.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg"><g id="view"/></svg>`)),
				Read("files/a.pdf", []byte("%PDF")),
			})
			assert.Equal(t, c.want, kinds(got), got.Error())
			for _, f := range got {
				assert.Equal(t, "species/page.html", f.Page)
			}
		})
	}
}

// A page that a host shows at any address links from the host's root, and says where that is.
func TestLinksFromTheHostsRoot(t *testing.T) {
	for link, want := range map[string][]Kind{
		"/our%20club/rivers/other.html":       nil,
		"/our%20club/rivers/other.html#hours": nil,
		"/our%20club/rivers/other.html#x":     {DeadAnchor},
		"/our%20club/rivers/none.html":        {DeadLink},
		"/our%20club/rivers/":                 {DeadLink},
		"/our%20club/../rivers/other.html":    {DeadLink},
		"/rivers/other.html":                  {DeadLink},
		"rivers/other.html":                   nil,
	} {
		body := `<p data-root="/our%20club/"><a href="` + link + `">x</a>`
		got := Verify([]Notes{marked("404.html", body), marked("rivers/other.html", `<h2 id="hours">x</h2>`)})
		assert.Equal(t, want, kinds(got), link)
	}
}

func TestVerifyMarks(t *testing.T) {
	for body, want := range map[string]int{
		`<p>`:                              2,
		`<p data-records-to="2026-05-01">`: 1,
		`<p data-records-to="2026-05-01"><p data-built="2026-06-01">`:        0,
		`<p data-records-to="" data-built=" ">`:                              1,
		`<p data-records data-build="x">`:                                    2,
		`<script>'<p data-records-to="2026-05-01" data-built="x">'</script>`: 2,
	} {
		got := Verify([]Notes{Read("a.html", []byte(body))})
		assert.Len(t, got, want, body)
		for _, f := range got {
			assert.Equal(t, MissingMark, f.Kind)
		}
	}
	assert.Empty(t, Verify([]Notes{Read("data/guide.json", []byte("{}")), Read("a.svg", []byte("<svg/>"))}), "only pages carry marks")
}

func TestVerifyPaths(t *testing.T) {
	got := Verify([]Notes{marked("a.html", ""), marked("b.html", ""), marked("A.html", ""), marked("b.html", "")})
	assert.Equal(t, Failures{
		{"a.html", SamePath, "differs only in letter case from A.html"},
		{"b.html", SamePath, "written twice"},
	}, got)
}

func TestVerifyStylesheet(t *testing.T) {
	got := Verify([]Notes{
		Read("style/a.css", []byte(`@import "b.css"; @font-face { src: url(../fonts/f.woff2) } p { fill: url(#p); background: url('none.png') } q { src: url(https://example.org/f.woff2)`)),
		Read("style/b.css", nil), Read("fonts/f.woff2", nil),
	})
	assert.Equal(t, []Kind{DeadLink, ForeignHost}, kinds(got), got.Error())
}

func TestVerifyTellsPageAndReason(t *testing.T) {
	got := Verify([]Notes{marked("a.html", `<a href="B.html#x">x</a>`), marked("b.html", "")})
	assert.Equal(t, "a.html: dead link: a href \"B.html#x\": differs in letter case from b.html", got[0].String())
	assert.Contains(t, got.Error(), "not of the guide")
}

func TestCandidates(t *testing.T) {
	// The cases of the HTML standard's "Parsing a srcset attribute": commas may end an address.
	assert.Equal(t, []string{"a.png", "b.png", "c,d.png"}, candidates(" a.png, b.png 2x , c,d.png 100w", false))
	assert.Equal(t, []string{"data:image/gif;base64,AA"}, candidates("data:image/gif;base64,AA 1x", false))
	assert.Empty(t, candidates(" , ", false))
}
