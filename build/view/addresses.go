package view

// Where pages live. A water's, fly's, dressing's and note's address comes from its file's name.

import (
	"fmt"
	"strings"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/photo"
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
	RecordersPage   = "recorders.html"
	ChangesPage     = "changes.html"
	CautionsPage    = "cautions.html"
	NotFoundPage    = "404.html"
	WholeBooklet    = "booklet.html"
	PlanPage        = "plan.html"
	SeasonsPage     = "seasons.html"
	DuePage         = "due.html" // in the members' edition, as is the next
	HandoverPage    = "handover.html"

	Assets = "assets/" // styles and scripts
)

// FixedPages lists the addresses that no file of the guide may take.
func FixedPages() []string {
	l := []string{FrontPage, FliesPage, YearPage, DressingsPage, KeyPage, SievePage, ExplainedPage, RecordsPage,
		GlossaryPage, SourcesPage, CreditsPage, CorrectionsPage, ChangesPage, RecordersPage, CautionsPage, NotFoundPage, WholeBooklet, PlanPage, SeasonsPage, DuePage, HandoverPage}
	l = append(l, SearchPage, SheetPage, OfflinePage)
	for m := 1; m <= 12; m++ {
		l = append(l, MonthPage(m))
	}
	return l
}

// WaterPage is the address of a water's page.
func WaterPage(w *figures.Water) string { return "rivers/" + w.Address + ".html" }

// FlyPage is the address of a fly's page.
func FlyPage(f *figures.Fly) string { return "species/" + f.Address + ".html" }

// PanelFile holds the option that the charts of all pages fill.
const PanelFile = Assets + "charts/panel.js"

// ChartsFile holds what the charts of a page, or of a fly wherever it stands, show when a reader looks closer.
func ChartsFile(page string) string {
	return Assets + "charts/" + strings.TrimSuffix(page, ".html") + ".js"
}

// DressingPage is the address of a dressing's page.
func DressingPage(d *figures.Dressing) string { return "dressings/" + d.Address + ".html" }

// NotePage is the address of a note's page.
func NotePage(address string) string { return "notes/" + address + ".html" }

// MonthPage is the address of a month's page, 1 to 12.
func MonthPage(m int) string { return fmt.Sprintf("months/%02d.html", m) }

// WaterKeyPage is the key of one water; waterMonthKeyPage of its flies in one month.
func WaterKeyPage(w *figures.Water) string { return "key/" + w.Address + ".html" }

// WaterMonthKeyPage is the address of the key of a water in a month, 1 to 12.
func WaterMonthKeyPage(w *figures.Water, m int) string {
	return fmt.Sprintf("key/%s-%02d.html", w.Address, m)
}

// WaterBooklet is the address of a water's booklet.
func WaterBooklet(w *figures.Water) string { return "booklet/" + w.Address + ".html" }

// LessonPage is the address of a club evening on a month, 1 to 12, of a water.
func LessonPage(w *figures.Water, m int) string {
	return fmt.Sprintf("lesson/%s-%02d.html", w.Address, m)
}

// SheetPage is the net sheet's address.
const SheetPage = "sheet.html"

// Addresses of what keeps the guide on a device.
const (
	OfflinePage = "offline.html"
	OfflineList = "offline.json"
	Worker      = "sw.js"
	AppManifest = "manifest.webmanifest"
	// mostKept is in bytes on the device, of which about a fifth goes over the wire: a larger guide is
	// kept by the waters that the reader chooses.
	MostKept     = 20_000_000
	KeptChecksum = 16 // hex digits of a file's SHA-256: enough to tell two builds apart
)

// PhotosDir is where the pictures stand in the site.
const PhotosDir = "photos/"

// PhotoAddress is where a photo stands in the site in one of its widths.
func PhotoAddress(p *guide.Photo, s photo.Size) string { return PhotosDir + p.Picture.Name(s.Width) }

// PocketPage is the address of a water's card.
func PocketPage(w *figures.Water) string { return "card/" + w.Address + ".html" }

// Download is a data file of the site.
type Download struct {
	Address string // "data/guide.json"
	What    string // in words; "" prints the address
	Kind    string // "JSON", "CSV"
}

// SearchPage and SearchIndex are where the search lives.
const (
	SearchPage  = "search.html"
	SearchIndex = Assets + "search-index.js"
)

// TripPage is the address of a water's tying list.
func TripPage(w *figures.Water) string { return "trip/" + w.Address + ".html" }
