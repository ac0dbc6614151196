package page

import (
	"path"
	"strings"

	"guidegen/build/figures"
)

// fakeSite links as a site does, by relative addresses.
type fakeSite struct{ book *figures.Book }

func (fakeSite) Link(from, to string) string {
	to, fragment, found := strings.Cut(to, "#")
	up := strings.Repeat("../", strings.Count(path.Clean(from), "/"))
	link := up + to
	if found {
		link += "#" + fragment
	}
	return link
}

func (s fakeSite) Page(file string) (string, bool) {
	for _, f := range s.book.Flies {
		if f.File == file {
			return flyPage(f), true
		}
	}
	for _, w := range s.book.Waters {
		if w.File == file {
			return waterPage(w), true
		}
	}
	if s.book.Edition != nil {
		for _, n := range s.book.Edition.Notes {
			if n.Body.File == file {
				return notePage(n.Address), true
			}
		}
	}
	return "", false
}
