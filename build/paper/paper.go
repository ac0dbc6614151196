// Package paper makes the pages to be printed: the pocket card and the booklet of a water, the booklet of the guide, the
// net sheet and the sheets of a club evening.
package paper

import (
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
)

// Printer prints models of pages made for paper. Safe for several goroutines once made.
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
	return On(p, book), nil
}

// On prints with a printer that is already made.
func On(p *view.Printer, book *figures.Book) *Printer { return &Printer{p, book, p.Words()} }
