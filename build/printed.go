package build

// Which figures a site prints: those that its pages' models carry.

import (
	"guidegen/build/figures"
	"guidegen/build/page"
	"guidegen/build/view"
	"guidegen/content"
)

// Printed is one figure on one page.
type Printed struct {
	Page   string // its address
	What   string // what it is, "Large dark olive, May, chance"
	Figure content.Figure
}

// PrintedFigures lists the figures of the pages wanted, in the order of the pages and within each in the order of its
// model. known lists every page's address.
func PrintedFigures(book *figures.Book, wanted func(page string) bool) (list []Printed, known []string, err error) {
	sheets, err := page.All(book, view.Deps{Site: allocate(book.Edition, &content.Problems{})})
	if err != nil {
		return nil, nil, err
	}
	for _, s := range sheets {
		known = append(known, s.Address)
		if !wanted(s.Address) {
			continue
		}
		for _, f := range page.Figures(s.Model()) {
			list = append(list, Printed{s.Address, f.What, f.Figure})
		}
	}
	return list, known, nil
}
