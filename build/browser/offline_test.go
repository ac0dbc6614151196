package browser

// One visit to the front page with a signal, then none: every kind of page opens, with
// its search and its closer view.

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

func TestOfflineAfterTheFirstVisit(t *testing.T) {
	server := serve(t, site(t))
	base := server.URL + below
	b := newTab(t, base)
	b.size(360, 640, 2)
	b.visit(base)
	b.until(`(await navigator.serviceWorker.getRegistration()) && (await navigator.serviceWorker.getRegistration()).active`, "the guide is kept")
	b.sound("the first visit")
	// A page may still ask for what only a server has: whether there is a newer guide, and photos, which
	// are not kept. Browsers put that on the console, whatever a script does.
	signs := func(where string) {
		faults, _ := b.taken()
		for _, f := range faults {
			if !strings.Contains(f, "/photos/") && !strings.Contains(f, "/offline.json") {
				assert.Fail(t, f, where)
			}
		}
	}
	server.CloseClientConnections()
	server.Close()
	for _, p := range oneOfEachKind(t) {
		b.visit(base + p)
		assert.NotEmpty(t, eval[string](b, `document.documentElement.dataset.kind || ''`), p)
		signs(p)
	}
	b.visit(base + "rivers/pellowbourne.html")
	eval[bool](b, `document.querySelector('.chart-closer:not([hidden])').click(), true`)
	b.until(`document.querySelectorAll('.chart-live svg path').length > 20`, "the closer view is drawn")
	b.visit(base + "search.html")
	b.do(chromedp.SendKeys(chromedp.CSS(`#search-for`), "irn blu"))
	b.until(`/Iron blue/i.test(document.querySelector('#search-found').innerText)`, "search")
	signs("tools")
}
