package build

// Which figures a site prints: noted while its pages are drawn, and thrown away
// with the pages.

import (
	"fmt"

	"guidegen/build/figures"
	"guidegen/build/page"
	"guidegen/content"
)

// Printed is one figure on one page.
type Printed struct {
	Page   string // its address
	Figure content.Figure
}

// PrintedFigures lists the figures of the pages wanted, in the order of the
// pages and within each in the order they stand there. known lists every
// page's address.
func PrintedFigures(book *figures.Book, wanted func(page string) bool) (list []Printed, known []string, err error) {
	at := ""
	sheets, err := page.All(book, page.Deps{
		Site:    allocate(book.Edition, &content.Problems{}),
		Printed: func(f content.Figure) { list = append(list, Printed{at, f}) },
	})
	if err != nil {
		return nil, nil, err
	}
	for _, s := range sheets {
		known = append(known, s.Address)
		if at = s.Address; !wanted(at) {
			continue
		}
		if _, err := s.Draw(); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", at, err)
		}
	}
	return list, known, nil
}
