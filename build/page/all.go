package page

// Every page of the site.

import (
	"guidegen/build/figures"
	"guidegen/build/view"
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
	add := func(address, kind string, model func() (any, error)) {
		out = append(out, view.Sheet{Address: address, Draw: func() (view.Drawn, error) {
			m, err := model()
			if err != nil {
				return view.Drawn{}, err
			}
			html, err := p.Draw(kind, m)
			return view.Drawn{HTML: html}, err
		}, Model: model})
	}
	plain := func(f func() any) func() (any, error) { return func() (any, error) { return f(), nil } }
	add(view.FrontPage, "front", plain(func() any { return p.front() }))
	for _, w := range p.book.Waters {
		out = append(out, p.riverSheet(w))
	}
	add(view.FliesPage, "flies", plain(func() any { return p.flies() }))
	for _, f := range p.book.Flies {
		out = append(out, p.flySheet(f))
	}
	add(view.YearPage, "year", plain(func() any { return p.year() }))
	for i := 1; i <= 12; i++ {
		add(view.MonthPage(i), "month", plain(func() any { return p.month(i) }))
	}
	add(view.DressingsPage, "dressings", plain(func() any { return p.dressingList() }))
	for _, d := range p.book.Dressings {
		add(view.DressingPage(d), "dressing", plain(func() any { return p.dressing(d) }))
	}
	add(view.KeyPage, "key", plain(func() any { return p.wholeKey() }))
	for _, w := range p.book.Waters {
		add(view.WaterKeyPage(w), "key", plain(func() any { return p.WaterKey(w) }))
		for i := 1; i <= 12; i++ {
			add(view.WaterMonthKeyPage(w, i), "key", plain(func() any { return p.waterMonthKey(w, i) }))
			if l := p.book.Lesson(w, i); l != nil {
				add(view.LessonPage(w, i), "lesson", plain(func() any { return p.paper.Lesson(l) }))
			}
		}
	}
	add(view.SievePage, "sieve", plain(func() any { return p.sieve() }))
	for _, w := range p.book.Waters {
		add(view.TripPage(w), "trip", plain(func() any { return p.trip(w) }))
	}
	add(view.SearchPage, "search", plain(func() any { return p.search() }))
	add(view.ExplainedPage, "explained", plain(func() any { return p.explained() }))
	add(view.PlanPage, "plan", plain(func() any { return p.plan() }))
	add(view.RecordsPage, "records", plain(func() any { return p.recordsModel() }))
	for _, n := range p.Notes() {
		out = append(out, view.Sheet{Address: view.NotePage(n.Address), Draw: func() (view.Drawn, error) {
			m, problems := p.note(n)
			html, err := p.Draw("note", m)
			return view.Drawn{HTML: html, Problems: problems}, err
		}, Model: func() (any, error) { m, _ := p.note(n); return m, nil }})
	}
	add(view.GlossaryPage, "glossary", plain(func() any { return p.glossary() }))
	add(view.SourcesPage, "sources", plain(func() any { return p.SourcesModel() }))
	add(view.CreditsPage, "credits", func() (any, error) { return p.credits() })
	add(view.CorrectionsPage, "corrections", plain(func() any { return p.corrections() }))
	add(view.CautionsPage, "cautions", plain(func() any { return p.Cautions() }))
	out = append(out, p.paper.PaperSheets()...)
	add(view.SheetPage, "sheet", plain(func() any { return p.paper.NetSheet() }))
	add(view.OfflinePage, "offline", plain(func() any { return p.offline() }))
	add(view.NotFoundPage, "notfound", plain(func() any { return p.notFound() }))
	return out
}
