package share

// The feed of changes, RFC 4287: what was put right, and which printed values
// differ from the site as it was before. Only absolute dates stand in it.

import (
	"cmp"
	"encoding/xml"
	"fmt"
	"html"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"guidegen/build/figures"
	"guidegen/content"
)

type feed struct {
	XMLName xml.Name `xml:"http://www.w3.org/2005/Atom feed"`
	Lang    string   `xml:"http://www.w3.org/XML/1998/namespace lang,attr,omitempty"`
	Title   string   `xml:"title"`
	ID      string   `xml:"id"`
	Updated string   `xml:"updated"`
	Author  person   `xml:"author"`
	Links   []link   `xml:"link"`
	Rights  string   `xml:"rights,omitempty"`
	Entries []entry  `xml:"entry"`
}

type entry struct {
	Title    string   `xml:"title"`
	ID       string   `xml:"id"`
	Updated  string   `xml:"updated"`
	Author   *person  `xml:"author,omitempty"`
	Links    []link   `xml:"link"`
	Category category `xml:"category"`
	Content  html5    `xml:"content"`
}

type person struct {
	Name string `xml:"name"`
}

type link struct {
	Rel  string `xml:"rel,attr"`
	Href string `xml:"href,attr"`
	Type string `xml:"type,attr"`
}

type category struct {
	Term string `xml:"term,attr"`
}

type html5 struct {
	Type string `xml:"type,attr"`
	Text string `xml:",chardata"`
}

// The two kinds of entries.
const (
	correctionTerm = "correction"
	changeTerm     = "news"
)

const (
	mostEntries = 100 // older changes leave the feed; corrections stay on their page
	mostLines   = 60  // of one entry
)

// News is an entry of the feed as a page prints it.
type News struct {
	On          string // ISO date
	Title, Page string
	Lines       []string
	Now         bool // new since the site was last published
}

// feedOf joins corrections, what changed now, and what the old feed says
// changed before, newest first. Texts that this edition withholds stand in the
// old site's values perhaps, and nowhere here.
func feedOf(book *figures.Book, words Words, changes []Change, was *site) ([]byte, []News, error) {
	s := book.Edition.Settings
	f := feed{Lang: words.Language(), Title: words.Plain("feed.title", "guide", s.Name), Author: person{cmp.Or(s.Publisher, s.Name)}, Rights: s.Licence,
		Links: []link{{"alternate", s.Address + "corrections.html", "text/html"}}}
	f.ID = "urn:uuid:" + uuid(book, "feed", book.Edition.Name())
	if s.Address != "" {
		f.ID = s.Address + ChangesFeed
		f.Links = append(f.Links, link{"self", s.Address + ChangesFeed, "application/atom+xml"})
	}
	seen := map[string]bool{}
	add := func(e entry) {
		if !seen[e.ID] {
			seen[e.ID] = true
			f.Entries = append(f.Entries, e)
		}
	}
	times := map[string]int{}
	for _, c := range book.Edition.Corrections {
		if c.Date.IsZero() {
			continue
		}
		name := c.Date.String() + "\x00" + c.File + "\x00" + c.What
		times[name]++
		lines := []string{}
		for _, x := range []struct{ label, text string }{{"before", c.Before}, {"now", c.After}, {"why", c.Why}} {
			if x.text != "" {
				lines = append(lines, words.Plain("corrections."+x.label)+words.Plain("list.colon")+x.text)
			}
		}
		e := newEntry(book, c.Date.String(), correctionTerm, "corrections.html", words.Plain("feed.put_right", "what", c.What), lines, name, fmt.Sprint(times[name]))
		if c.By != "" {
			e.Author = &person{c.By}
		}
		add(e)
	}
	for _, c := range changes {
		title, name, lines := words.Plain("feed.changed", "page", c.Title, "n", strconv.Itoa(len(c.Lines))), strings.Join(c.Lines, "\n"), c.Lines
		if n := len(lines) - mostLines; n > 0 {
			lines = append(slices.Clone(lines[:mostLines]), words.Plain("front.more", "n", strconv.Itoa(n)))
		}
		add(newEntry(book, book.Built.String(), changeTerm, c.Page, title, lines, c.Page, name))
	}
	told := map[string]bool{} // ids of the old feed
	for _, e := range was.feed {
		if told[e.ID] = true; e.Category.Term == changeTerm {
			if e, ok := was.still(e); ok {
				add(e)
			}
		}
	}
	slices.SortStableFunc(f.Entries, func(a, b entry) int {
		return cmp.Or(cmp.Compare(b.Updated, a.Updated), cmp.Compare(a.Category.Term, b.Category.Term), cmp.Compare(a.Title, b.Title), cmp.Compare(a.ID, b.ID))
	})
	f.Entries = f.Entries[:min(len(f.Entries), mostEntries)]
	f.Updated = midnight(book.Built.String())
	if len(f.Entries) > 0 {
		f.Updated = f.Entries[0].Updated
	}
	b, err := xml.MarshalIndent(f, "", " ")
	if err != nil {
		return nil, nil, err
	}
	news := each(f.Entries, func(e entry) News {
		return News{strings.TrimSuffix(e.Updated, "T00:00:00Z"), e.Title, strings.TrimPrefix(e.Links[0].Href, s.Address), e.lines(), was.was != nil && !told[e.ID]}
	})
	return append([]byte(xml.Header), append(b, '\n')...), news, nil
}

// still is an entry of the old feed without the lines that name what this edition no longer shows; false where nothing
// is left, or its very title names it.
func (s *site) still(e entry) (entry, bool) {
	if len(e.Links) == 0 || s.hidden(e.Title) {
		return e, false
	}
	page := e.Links[0].Href
	if i := strings.LastIndex(page, "rivers/"); i >= 0 {
		page = page[i:]
	}
	e.Content.Text = asList(slices.DeleteFunc(e.lines(), func(l string) bool { return s.hides(page, l) }))
	return e, len(e.lines()) > 0
}

// lines are those of an entry's list.
func (e entry) lines() (out []string) {
	text := strings.TrimSuffix(strings.TrimPrefix(e.Content.Text, "<ul><li>"), "</li></ul>")
	for l := range strings.SplitSeq(text, "</li><li>") {
		if l = html.UnescapeString(l); l != "" && l != "<ul></ul>" {
			out = append(out, l)
		}
	}
	return out
}

func asList(lines []string) string {
	var b strings.Builder
	b.WriteString("<ul>")
	for _, l := range lines {
		b.WriteString("<li>" + html.EscapeString(l) + "</li>")
	}
	b.WriteString("</ul>")
	return b.String()
}

func newEntry(book *figures.Book, on, term, page, title string, lines []string, name ...string) entry {
	e := entry{Title: title, Updated: midnight(on), Category: category{term}, Content: html5{"html", asList(lines)},
		Links: []link{{"alternate", book.Edition.Settings.Address + page, "text/html"}}}
	e.ID = entryID(book, on, append([]string{term, on}, name...))
	return e
}

// entryID is a tag of the site's host (RFC 4151) or, without an address, a
// name-based UUID. It stays the same as long as what it names does.
func entryID(book *figures.Book, on string, name []string) string {
	id := uuid(book, name...)
	u, err := url.Parse(book.Edition.Settings.Address)
	if err != nil || u.Hostname() == "" {
		return "urn:uuid:" + id
	}
	return "tag:" + u.Hostname() + "," + on + ":" + id
}

func midnight(d string) string { return d + "T00:00:00Z" }

// withheld reports whether a text holds one that this edition must not show.
func withheld(book *figures.Book) func(string) bool {
	l := each(book.Edition.Withheld, content.Fold)
	return func(s string) bool {
		s = content.Fold(s)
		return slices.ContainsFunc(l, func(w string) bool { return strings.Contains(s, w) })
	}
}
