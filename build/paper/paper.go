// Package paper makes the pages to be printed: the pocket card and the booklet of a water, the booklet of the guide, the
// net sheet and the sheets of a club evening. Each page has a small printer of its own.
package paper

import (
	"guidegen/build/figures"
	"guidegen/build/lang"
	"guidegen/build/view"
)

// printer is what those of the pages have in common.
type printer struct {
	*view.Printer
	book  *figures.Book
	words *lang.Words
}

func on(p *view.Printer, book *figures.Book) printer { return printer{p, book, p.Words()} }

// Sheets lists the booklet of the guide, and a booklet and a card for each water.
func Sheets(p *view.Printer, book *figures.Book) []view.Sheet {
	x := on(p, book)
	out := []view.Sheet{p.Sheet(view.WholeBooklet, "booklet", func() any { return bookletPrinter{printer: x, at: view.WholeBooklet}.page() })}
	for _, w := range book.Waters {
		out = append(out,
			p.Sheet(view.WaterBooklet(w), "booklet", func() any { return bookletPrinter{x, view.WaterBooklet(w), w}.page() }),
			p.Sheet(view.PocketPage(w), "card", func() any { return cardPrinter{x, view.PocketPage(w), w}.page() }))
	}
	return out
}

// NetSheet is the form for a visit with the net.
func NetSheet(p *view.Printer, book *figures.Book) view.Sheet {
	return p.Sheet(view.SheetPage, "sheet", func() any { return netPrinter{on(p, book)}.page() })
}

// Lesson is a club evening on a month's flies of a water.
func Lesson(p *view.Printer, book *figures.Book, w *figures.Water, month int) view.Sheet {
	at := view.LessonPage(w, month)
	return p.Sheet(at, "lesson", func() any { return lessonPrinter{on(p, nil), at}.page(book.Lesson(w, month)) })
}
