package page

// Where pages live. A water's, fly's, dressing's and note's address comes from its file's name.

import (
	"fmt"
	"strings"

	"guidegen/build/figures"
)

// Addresses of pages that every site has.
const (
	FrontPage       = "index.html"
	FliesPage       = "species.html"
	YearPage        = "year.html"
	DressingsPage   = "dressings.html"
	KeyPage         = "key.html"
	SievePage       = "sieve.html"
	ExplainedPage   = "figures.html"
	RecordsPage     = "records.html"
	GlossaryPage    = "glossary.html"
	SourcesPage     = "sources.html"
	CreditsPage     = "credits.html"
	CorrectionsPage = "corrections.html"
	CautionsPage    = "cautions.html"
	NotFoundPage    = "404.html"
	WholeBooklet    = "booklet.html"
	PlanPage        = "plan.html"

	Assets = "assets/" // styles and scripts
)

// FixedPages lists the addresses that no file of the guide may take.
func FixedPages() []string {
	l := []string{FrontPage, FliesPage, YearPage, DressingsPage, KeyPage, SievePage, ExplainedPage, RecordsPage,
		GlossaryPage, SourcesPage, CreditsPage, CorrectionsPage, CautionsPage, NotFoundPage, WholeBooklet, PlanPage}
	l = append(l, SearchPage, SheetPage, OfflinePage)
	for m := 1; m <= 12; m++ {
		l = append(l, monthPage(m))
	}
	return l
}

func waterPage(w *figures.Water) string { return "rivers/" + w.Address + ".html" }
func flyPage(f *figures.Fly) string     { return "species/" + f.Address + ".html" }

// panelFile holds the option that the charts of all pages fill.
const panelFile = Assets + "charts/panel.js"

// chartsFile holds what the charts of a page, or of a fly wherever it stands, show when a reader looks closer.
func chartsFile(page string) string {
	return Assets + "charts/" + strings.TrimSuffix(page, ".html") + ".js"
}

func dressingPage(d *figures.Dressing) string { return "dressings/" + d.Address + ".html" }
func notePage(address string) string          { return "notes/" + address + ".html" }
func monthPage(m int) string                  { return fmt.Sprintf("months/%02d.html", m) }

// waterKeyPage is the key of one water; waterMonthKeyPage of its flies in one month.
func waterKeyPage(w *figures.Water) string { return "key/" + w.Address + ".html" }
func waterMonthKeyPage(w *figures.Water, m int) string {
	return fmt.Sprintf("key/%s-%02d.html", w.Address, m)
}
