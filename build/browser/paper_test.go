package browser

// Pages on paper: nothing is cut off at the edge of an A4 sheet, nothing that only works on a screen
// is printed, and what a screen folds away is there. Cards and booklets are measured where they are made.

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/press"
)

// cut lists what a sheet's edge, or a box that can't be scrolled on paper, cuts off.
const cut = `(function () {
	var wide = document.documentElement.clientWidth, out = [];
	document.querySelectorAll('body *').forEach(function (e) {
		if (!e.checkVisibility() || e.closest('.vh, svg')) return;
		var r = e.getBoundingClientRect(), s = getComputedStyle(e);
		var over = r.width > 0 && r.right > wide + 1;
		if (!over && s.overflowX !== 'visible' && e.scrollWidth > e.clientWidth + 1 && e.clientWidth) over = true;
		if (over && out.length < 5) out.push(e.tagName + '.' + e.className + '#' + e.id + ' to ' + Math.round(r.right) + ' of ' + wide);
	});
	return out;
})()`

func TestOnPaper(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15")
	for _, p := range oneOfEachKind(t) {
		b.media("")
		b.size(718, 1000, 1) // A4 without margins of a centimetre: 190 mm at 96 to the inch
		b.visit(server.URL + below + p)
		kind := eval[string](b, `document.documentElement.dataset.kind`)
		if kind == "card" || kind == "booklet" {
			continue
		}
		b.media("print")
		eval[bool](b, `dispatchEvent(new Event('beforeprint'))`)
		b.settle()
		assert.Empty(t, eval[[]string](b, cut), "%s: cut off", p)
		if kind != "sieve" { // a form
			assert.Empty(t, eval[[]string](b, `Array.prototype.filter.call(document.querySelectorAll('button, input, select, textarea, nav.top, .skip, .age'),
			function (e) { return e.checkVisibility(); }).map(function (e) { return e.outerHTML.slice(0, 100); })`), "%s: on paper", p)
		}
		if kind != "river" && kind != "fly" && kind != "front" {
			continue
		}
		ctx, cancel := context.WithTimeout(b.ctx, patience)
		pdf, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: 8.27, PaperHeight: 11.69})
		cancel()
		require.NoError(t, err)
		assert.Positive(t, press.Pages(pdf.Data), p)
		assert.LessOrEqual(t, press.Pages(pdf.Data), 40, "%s is a heap of paper", p)
		if strings.HasPrefix(p, "rivers/") {
			assert.LessOrEqual(t, press.Pages(pdf.Data), 5, p)
		}
		t.Logf("%s: %d pages", p, press.Pages(pdf.Data))
	}
	b.sound("on paper")
}

// A season plan prints on one page for those who go.
func TestSeasonPlanOnPaper(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.visit(server.URL + below + "plan.html")
	b.media("print")
	assert.GreaterOrEqual(t, eval[int](b, `document.querySelectorAll('.plan tbody tr').length`), 12)
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	styled := true
	pdf, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &styled})
	cancel()
	require.NoError(t, err)
	assert.Equal(t, 1, press.Pages(pdf.Data))
}

// The net sheet prints as a blank one that a pencil can fill in: one side of A4, with scripts or without.
func TestNetSheetOnPaper(t *testing.T) {
	server := serve(t, site(t))
	for _, scripts := range []bool{true, false} {
		b := newTab(t, server.URL+below)
		b.withoutWorker()
		b.scripts(scripts)
		b.visit(server.URL + below + "sheet.html")
		b.media("print")
		text := eval[string](b, `document.body.innerText`)
		for _, has := range []string{"Date", "Water", "Beat", "Start", "End", "Method", "Effort", "Looked for", "Weather", "Water temperature, °C", "Level",
			"Empty visit", "Fly", "Stage", "Sex", "Number", "Lengths in mm", "Note", "Who sampled",
			"visit, date, start, end, water, beat, grid reference, method, effort, looked for, fly, stage, sex, count, lengths mm, measured, by"} {
			assert.Contains(t, text, has)
		}
		assert.GreaterOrEqual(t, eval[int](b, `document.querySelectorAll('.net-paper tbody tr').length`), 12)
		assert.Empty(t, eval[[]string](b, shownControls), "a pencil can't press a button")
		ctx, cancel := context.WithTimeout(b.ctx, patience)
		styled := true
		pdf, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &styled})
		cancel()
		require.NoError(t, err)
		assert.Equal(t, 1, press.Pages(pdf.Data))
		wide, high := press.Size(pdf.Data)
		assert.InDelta(t, 210, wide, 0.4) // ISO 216: A4, 210 × 297 mm
		assert.InDelta(t, 297, high, 0.4)
	}
}
