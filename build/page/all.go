package page

// Every page of the site.

import (
	"guidegen/build/figures"
	"guidegen/build/paper"
	"guidegen/build/view"
	"guidegen/content"
)

// All lists every page in a fixed order. The addresses are known at once; a sheet's Draw does the
// work and may run in any goroutine.
func All(book *figures.Book, deps view.Deps) ([]view.Sheet, error) {
	p, err := NewPrinter(book, deps)
	if err != nil {
		return nil, err
	}
	return p.Sheets(), nil
}

// Sheets lists every page in a fixed order.
func (p *Printer) Sheets() []view.Sheet {
	var out []view.Sheet
	add := func(address, kind string, model func() any) { out = append(out, p.Sheet(address, kind, model)) }
	add(view.FrontPage, "front", func() any { return p.front() })
	for _, w := range p.book.Waters {
		add(view.WaterPage(w), "river", func() any { return p.river(w) })
	}
	add(view.FliesPage, "flies", func() any { return p.flies() })
	for _, f := range p.book.Flies {
		out = append(out, p.SheetOfText(view.FlyPage(f), "fly", func() (any, []content.Problem) { return p.fly(f) }))
	}
	add(view.YearPage, "year", func() any { return p.year() })
	for i := 1; i <= 12; i++ {
		add(view.MonthPage(i), "month", func() any { return p.month(i) })
	}
	add(view.DressingsPage, "dressings", func() any { return p.dressingList() })
	for _, d := range p.book.Dressings {
		add(view.DressingPage(d), "dressing", func() any { return p.dressing(d) })
	}
	add(view.KeyPage, "key", func() any { return p.wholeKey() })
	for _, w := range p.book.Waters {
		add(view.WaterKeyPage(w), "key", func() any { return p.WaterKey(w) })
		for i := 1; i <= 12; i++ {
			add(view.WaterMonthKeyPage(w, i), "key", func() any { return p.waterMonthKey(w, i) })
			if p.book.HasLesson(w, i) {
				out = append(out, paper.Lesson(p.Printer, p.book, w, i))
			}
		}
	}
	add(view.SievePage, "sieve", func() any { return p.sieve() })
	for _, w := range p.book.Waters {
		add(view.TripPage(w), "trip", func() any { return p.trip(w) })
	}
	add(view.SearchPage, "search", func() any { return p.search() })
	add(view.ExplainedPage, "explained", func() any { return p.explained() })
	if p.Members() {
		add(view.DuePage, "due", func() any { return p.due() })
		add(view.HandoverPage, "handover", func() any { return p.handover() })
	}
	add(view.SeasonsPage, "seasons", func() any { return p.seasons() })
	add(view.PlanPage, "plan", func() any { return p.plan() })
	add(view.RecordersPage, "recorders", func() any { return p.recorders() })
	add(view.RecordsPage, "records", func() any { return p.recordsModel() })
	for _, n := range p.Notes() {
		out = append(out, p.SheetOfText(view.NotePage(n.Address), "note", func() (any, []content.Problem) { return p.note(n) }))
	}
	add(view.GlossaryPage, "glossary", func() any { return p.glossary() })
	add(view.SourcesPage, "sources", func() any { return p.SourcesModel() })
	add(view.CreditsPage, "credits", func() any { return p.credits() })
	add(view.ChangesPage, "changes", func() any { return p.changes() })
	add(view.CorrectionsPage, "corrections", func() any { return p.corrections() })
	add(view.CautionsPage, "cautions", func() any { return p.Cautions() })
	out = append(out, paper.Sheets(p.Printer, p.book)...)
	out = append(out, paper.NetSheet(p.Printer, p.book))
	add(view.OfflinePage, "offline", func() any { return p.offline() })
	add(view.NotFoundPage, "notfound", func() any { return p.notFound() })
	return out
}
