// Package page makes the site's pages. A model for each kind of page is made from the figures,
// ready to print: texts, links, dates and figures that carry what they rest on, never a bare
// number. A template for each kind prints its model and reckons nothing.
//
// The way of a page: All lists every address before any is drawn; a sheet's Draw then makes its
// model and prints it, in any order and in several goroutines, always to the same bytes.
package page

import (
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
)

// Printer prints models of pages read on a screen. Safe for several goroutines once made.
type Printer struct {
	*view.Printer
	book  *figures.Book
	words *lang.Words
}

// NewPrinter reads templates and words.
func NewPrinter(book *figures.Book, deps view.Deps) (*Printer, error) {
	p, err := view.NewPrinter(book, deps)
	if err != nil {
		return nil, err
	}
	return &Printer{p, book, p.Words()}, nil
}
