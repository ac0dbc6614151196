package site

// This file writes links between pages, and the small pages that stand at old addresses.

import (
	"fmt"
	"html"
	"net/url"
	"path"
	"strings"
)

// Relative returns the link from one page to another, both given by address; `to` may end in a
// fragment. The link names its file in full, so it works from any subfolder of a host and from
// disk, where a bare directory shows a listing.
func Relative(from, to string) string {
	to, fragment, _ := strings.Cut(to, "#")
	link := url.URL{Fragment: fragment}
	if to != "" && (to != from || fragment == "") {
		a, b := strings.Split(path.Dir(from), "/"), strings.Split(to, "/")
		if a[0] == "." {
			a = nil
		}
		same := 0
		for same < len(a) && same < len(b)-1 && a[same] == b[same] {
			same++
		}
		link.Path = strings.Repeat("../", len(a)-same) + strings.Join(b[same:], "/")
	}
	return link.String()
}

// Moved is what the page at an old address says.
type Moved struct {
	Redirect
	Lang      string // of the words below, as a BCP 47 tag
	Title     string // of the page it leads to
	Sentence  string // "This page has moved to", in the site's own words
	RecordsTo string // the marks every page carries
	Built     string
}

// Page draws the page at an old address. It leads on by itself, without a script, and offline;
// the link is there for readers whose browser does not follow.
func (m Moved) Page() []byte {
	to := html.EscapeString(Relative(m.Old, m.To))
	title := html.EscapeString(m.Title)
	return fmt.Appendf(nil, `<!DOCTYPE html>
<html lang="%s" data-records-to="%s" data-built="%s">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="refresh" content="0; url=%s">
<link rel="canonical" href="%s">
<title>%s</title>
</head>
<body>
<main>
<h1>%s</h1>
<p>%s <a href="%s">%s</a></p>
</main>
</body>
</html>
`, html.EscapeString(m.Lang), html.EscapeString(m.RecordsTo), html.EscapeString(m.Built),
		to, to, title, title, html.EscapeString(m.Sentence), to, title)
}
