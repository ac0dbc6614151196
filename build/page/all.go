package page

// Every page of the site and its styles and scripts.

import (
	"encoding/json"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"guidegen/build/figures"
	"guidegen/templates"
)

// All lists every page in a fixed order. The addresses are known at once; a sheet's Draw does the
// work and may run in any goroutine.
func All(book *figures.Book, deps Deps) ([]Sheet, error) {
	p, err := NewPrinter(book, deps)
	if err != nil {
		return nil, err
	}
	return p.Sheets(), nil
}

// Sheets lists every page in a fixed order.
func (p *Printer) Sheets() []Sheet {
	var out []Sheet
	add := func(address, kind string, model func() (any, error)) {
		out = append(out, Sheet{address, func() (Drawn, error) {
			m, err := model()
			if err != nil {
				return Drawn{}, err
			}
			html, err := p.draw(kind, m)
			return Drawn{HTML: html}, err
		}, model})
	}
	plain := func(f func() any) func() (any, error) { return func() (any, error) { return f(), nil } }
	add(FrontPage, "front", plain(func() any { return p.front() }))
	for _, w := range p.book.Waters {
		out = append(out, p.riverSheet(w))
	}
	add(FliesPage, "flies", plain(func() any { return p.flies() }))
	for _, f := range p.book.Flies {
		out = append(out, p.flySheet(f))
	}
	add(YearPage, "year", plain(func() any { return p.year() }))
	for i := 1; i <= 12; i++ {
		add(monthPage(i), "month", plain(func() any { return p.month(i) }))
	}
	add(DressingsPage, "dressings", plain(func() any { return p.dressingList() }))
	for _, d := range p.book.Dressings {
		add(dressingPage(d), "dressing", plain(func() any { return p.dressing(d) }))
	}
	add(KeyPage, "key", plain(func() any { return p.wholeKey() }))
	for _, w := range p.book.Waters {
		add(waterKeyPage(w), "key", plain(func() any { return p.waterKey(w) }))
		for i := 1; i <= 12; i++ {
			add(waterMonthKeyPage(w, i), "key", plain(func() any { return p.waterMonthKey(w, i) }))
			if l := p.book.Lesson(w, i); l != nil {
				add(lessonPage(w, i), "lesson", plain(func() any { return p.lesson(l) }))
			}
		}
	}
	add(SievePage, "sieve", plain(func() any { return p.sieve() }))
	for _, w := range p.book.Waters {
		add(tripPage(w), "trip", plain(func() any { return p.trip(w) }))
	}
	add(SearchPage, "search", plain(func() any { return p.search() }))
	add(ExplainedPage, "explained", plain(func() any { return p.explained() }))
	add(PlanPage, "plan", plain(func() any { return p.plan() }))
	add(RecordsPage, "records", plain(func() any { return p.recordsModel() }))
	for _, n := range p.notes() {
		out = append(out, Sheet{notePage(n.Address), func() (Drawn, error) {
			m, problems := p.note(n)
			html, err := p.draw("note", m)
			return Drawn{html, problems}, err
		}, func() (any, error) { m, _ := p.note(n); return m, nil }})
	}
	add(GlossaryPage, "glossary", plain(func() any { return p.glossary() }))
	add(SourcesPage, "sources", plain(func() any { return p.sourcesModel() }))
	add(CreditsPage, "credits", func() (any, error) { return p.credits() })
	add(CorrectionsPage, "corrections", plain(func() any { return p.corrections() }))
	add(CautionsPage, "cautions", plain(func() any { return p.cautions() }))
	out = append(out, p.paperSheets()...)
	add(SheetPage, "sheet", plain(func() any { return p.netSheet() }))
	add(OfflinePage, "offline", plain(func() any { return p.offline() }))
	add(NotFoundPage, "notfound", plain(func() any { return p.notFound() }))
	return out
}

// Asset is a file that pages ask for: where it stands in the site, and where among the templates.
type Asset struct{ Address, File string }

// AssetFiles lists styles, scripts and the licences of those by others, by address.
func AssetFiles() ([]Asset, error) {
	var out []Asset
	for _, dir := range []string{"css", "js", "vendor", "icons"} {
		entries, err := fs.ReadDir(templates.Files, dir)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if e.Type().IsRegular() && !strings.HasSuffix(e.Name(), ".md") {
				out = append(out, Asset{Assets + e.Name(), path.Join(dir, e.Name())})
			}
		}
	}
	slices.SortFunc(out, func(a, b Asset) int { return strings.Compare(a.Address, b.Address) })
	return out, nil
}

// vendored lists the scripts by others that the site carries.
func vendored() ([]ScriptView, error) {
	text, err := fs.ReadFile(templates.Files, "vendor/vendor.json")
	if err != nil {
		return nil, err
	}
	var list struct{ Scripts []ScriptView }
	err = json.Unmarshal(text, &list)
	return list.Scripts, err
}

func sortedKeys[M ~map[string]V, V any](m M) []string { return slices.Sorted(maps.Keys(m)) }
