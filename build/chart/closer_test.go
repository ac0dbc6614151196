package chart

// "Look closer" in a browser, from disk, under the site's strict policy. Skipped
// where there is no Chromium, and with -short.

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
)

const closerPage = `<!doctype html><html lang="en" data-theme="light" data-chart-library="%s"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'self'"><title>t</title>
<link rel="stylesheet" href="chart.css"><script src="watch.js"></script><script src="minisearch.js"></script><script src="closer.js" defer></script></head><body>`

const closerFigure = `<figure>%s<button type="button" class="chart-closer" hidden data-options="options.js" data-option="%d" data-back="Back to the plain chart"
data-loading="Loading" data-failed="Not here" data-hint="Point at a bar">Look closer</button></figure>`

// watch.js notes what goes wrong; it stands before all other scripts.
const watchScript = `window.faults = [];
addEventListener('securitypolicyviolation', function (e) { faults.push('policy: ' + e.violatedDirective + ' ' + e.blockedURI + ' ' + e.sample); });
addEventListener('error', function (e) { faults.push('error: ' + e.message); });
addEventListener('unhandledrejection', function (e) { faults.push('rejection: ' + e.reason); });
window.alert = function () { faults.push('alert'); };`

func closerSite(t *testing.T, library string) string {
	dir := t.TempDir()
	for to, from := range map[string]string{
		"chart.css": "../../templates/css/chart.css", "closer.js": "../../templates/js/closer.js",
		"echarts.js": "../../templates/vendor/echarts.js", "minisearch.js": "../../templates/vendor/minisearch.js",
	} {
		text, err := os.ReadFile(from)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, to), text, 0o644))
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "watch.js"), []byte(watchScript), 0o644))
	page := fmt.Sprintf(closerPage, library)
	hostileChart := sampleMonthly()
	hostileChart.ID, hostileChart.Heading = "hostile", hostile
	hostileChart.Months[3].Text = hostile
	options := ""
	for i, c := range []charter{sampleMonthly(), sampleStacked(), sampleCompare(), hostileChart} {
		drawn := mustChart(t, c)
		page += fmt.Sprintf(closerFigure, drawn.SVG, i)
		options += fmt.Sprintf("guideOption(%q,%d,%s);\n", strconv.Itoa(i), drawn.Height, drawn.Option)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "options.js"), []byte(options), 0o644))
	file := filepath.Join(dir, "index.html")
	require.NoError(t, os.WriteFile(file, []byte(page), 0o644))
	return "file://" + file
}

func eval[T any](t *testing.T, ctx context.Context, script string) T {
	ctx, cancel := context.WithTimeout(ctx, 30*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(t, err, script)
	return v
}

// until waits for a condition of the page.
const until = `(async function (ok) { for (var i = 0; i < 200 && !ok(); i++) await new Promise(function (r) { setTimeout(r, 50); }); return !!ok(); })`

func TestLookCloser(t *testing.T) {
	ctx := browser.Open(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(closerSite(t, "echarts.js"))))
	require.True(t, eval[bool](t, ctx, until+`(function () { return !document.querySelector('.chart-closer').hidden; })`), "the script shows the button")

	assert.Equal(t, "none", eval[string](t, ctx, `getComputedStyle(document.querySelector('.chart-today')).display`))
	eval[bool](t, ctx, `guideCharts.today(5, 16), true`)
	assert.Equal(t, "translate(141.75) null", eval[string](t, ctx, // 36 + 23.5 × (4 + 15.5/31), by hand
		`(function (g) { return g.getAttribute('transform') + ' ' + g.getAttribute('display'); })(document.querySelector('.chart-today'))`))

	eval[bool](t, ctx, `document.querySelectorAll('.chart-closer').forEach(function (b) { b.click(); }), true`)
	assert.Equal(t, "Loading", eval[string](t, ctx, `document.querySelector('.chart-closer').textContent`))
	require.True(t, eval[bool](t, ctx, until+`(function () { return document.querySelectorAll('.chart-live svg path').length > 100; })`))
	for i, want := range []string{"Emergence by month", "Flies to expect on a visit", "Upper Orrin Water", "onerror=alert(1)"} {
		text := eval[string](t, ctx, fmt.Sprintf(`document.querySelectorAll('.chart-live')[%d].textContent`, i))
		assert.Contains(t, text, want)
	}
	assert.Equal(t, "none", eval[string](t, ctx, `document.querySelector('svg.chart').style.display`))
	assert.Equal(t, "Back to the plain chart|false|Point at a bar", eval[string](t, ctx,
		`(function (b) { return b.textContent + '|' + b.disabled + '|' + b.nextElementSibling.textContent; })(document.querySelector('.chart-closer'))`))

	// a pointer over April's bar shows its text, in the drawing, without a fault
	eval[bool](t, ctx, `(scrollTo(0, 0), true)`) // the click moved the focus
	april := eval[[]float64](t, ctx, `(function (b) { return [b.left + 52 + (b.width - 64) / 12 * 3.3, b.top + 190]; })(
		document.querySelector('.chart-live').getBoundingClientRect())`)
	for step := range 3 {
		require.NoError(t, chromedp.Do(ctx, chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, april[0]+float64(step), april[1])))
	}
	assert.True(t, eval[bool](t, ctx, until+`(function () { return document.querySelector('.chart-live').textContent.includes('visits in 3 years'); })`), "a tooltip")

	// the dark theme's colours reach the drawing
	was := eval[string](t, ctx, `document.querySelector('.chart-live').innerHTML`)
	eval[bool](t, ctx, `(document.documentElement.dataset.theme = 'dark', true)`)
	assert.True(t, eval[bool](t, ctx, until+`(function () { return document.querySelector('.chart-live').innerHTML.includes('rgb(47, 141, 147)'); })`))
	assert.NotContains(t, was, "rgb(47, 141, 147)")

	if dir := os.Getenv("CHART_SHEET"); dir != "" {
		for _, theme := range []string{"dark", "light"} {
			eval[bool](t, ctx, `(document.documentElement.dataset.theme = '`+theme+`', document.body.appendChild(document.createElement('p')), true)`)
			require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(412, 1500), chromedp.Sleep(2*time.Second)))
			picture, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(filepath.Join(dir, "closer-"+theme+".png"), picture, 0o644))
		}
	}

	eval[bool](t, ctx, `document.querySelector('.chart-closer').click(), true`)
	assert.Equal(t, "Look closer||3", eval[string](t, ctx, `document.querySelector('.chart-closer').textContent + '|' +
		document.querySelector('svg.chart').style.display + '|' + document.querySelectorAll('.chart-live').length`))
	assert.Empty(t, eval[[]string](t, ctx, `faults`))
}

func TestLookCloserSaysThatItFailed(t *testing.T) {
	ctx := browser.Open(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(closerSite(t, "missing.js"))))
	require.True(t, eval[bool](t, ctx, until+`(function () { return !document.querySelector('.chart-closer').hidden; })`))
	eval[bool](t, ctx, `document.querySelector('.chart-closer').click(), true`)
	assert.True(t, eval[bool](t, ctx, until+`(function () { return document.querySelector('.chart-status').textContent === 'Not here'; })`))
	assert.Equal(t, "Look closer|false|", eval[string](t, ctx, `(function (b) { return b.textContent + '|' + b.disabled + '|' +
		document.querySelector('svg.chart').style.display; })(document.querySelector('.chart-closer'))`))
}

// The search script tolerates misspelling; names from the field, misspelt by us.
func TestSearchScriptToleratesMisspelling(t *testing.T) {
	ctx := browser.Open(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(closerSite(t, "echarts.js"))))
	found := eval[[]string](t, ctx, `(function () {
		var s = new MiniSearch({ fields: ['name'], storeFields: ['name'] });
		s.addAll(['Large dark olive', 'Iron blue', 'Grannom', 'Blue-winged olive'].map(function (n, i) { return { id: i, name: n }; }));
		return ['granom', 'olvie', 'irn blu'].map(function (q) { return s.search(q, { fuzzy: 0.34, prefix: true })[0].name; });
	})()`)
	assert.Equal(t, "Grannom", found[0])
	assert.Contains(t, found[1], "olive")
	assert.Equal(t, "Iron blue", found[2])
}
