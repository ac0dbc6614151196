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
	What   string // what it is, as the page says: "Large dark olive, chance, May"
	Figure content.Figure
}

// PrintedFigures lists the figures of the pages wanted, in the order of the
// pages and within each in the order they stand there. known lists every
// page's address.
func PrintedFigures(book *figures.Book, wanted func(page string) bool) (list []Printed, known []string, err error) {
	at := ""
	sheets, err := page.All(book, page.Deps{
		Site:    allocate(book.Edition, &content.Problems{}),
		Printed: func(f content.Figure) { list = append(list, Printed{Page: at, Figure: f}) },
	})
	if err != nil {
		return nil, nil, err
	}
	for _, s := range sheets {
		known = append(known, s.Address)
		if at = s.Address; !wanted(at) {
			continue
		}
		first := len(list)
		drawn, err := s.Draw()
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", at, err)
		}
		names, err := labels(drawn.HTML)
		if err != nil || len(names) != len(list)-first {
			return nil, nil, fmt.Errorf("%s: %d figures were printed and %d are on the page: %w", at, len(list)-first, len(names), err)
		}
		for i, n := range names {
			list[first+i].What = n
		}
	}
	return list, known, nil
}
