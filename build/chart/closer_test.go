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

const closerPage = `<!doctype html><html lang="en" data-chart-library="%s"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'self'"><title>t</title>
<link rel="stylesheet" href="site.css"><link rel="stylesheet" href="chart.css"><script src="watch.js"></script>
<script src="minisearch.js"></script><script src="closer.js" defer></script></head><body><div><button type="button" class="chart-closer"
hidden data-options="panel.js|options.js" data-names="0|1|2" data-titles="Years|Groups|Odd" data-back="Close the closer view" data-loading="Loading"
data-failed="Not here" data-hint="Point at a bar">Look closer</button></div>`

// watch.js notes what goes wrong; it stands before all other scripts.
const watchScript = `window.faults = [];
addEventListener('securitypolicyviolation', function (e) { faults.push('policy: ' + e.violatedDirective + ' ' + e.blockedURI + ' ' + e.sample); });
addEventListener('error', function (e) { faults.push('error: ' + e.message); });
addEventListener('unhandledrejection', function (e) { faults.push('rejection: ' + e.reason); });
var shown = []; // what the chart library is told
Object.defineProperty(window, 'echarts', { configurable: true, get: function () { return this.lib; }, set: function (lib) {
  this.lib = Object.assign({}, lib, { init: function () {
    var chart = lib.init.apply(lib, arguments), tell = chart.setOption;
    chart.setOption = function (o) { shown.push(JSON.parse(JSON.stringify(o))); return tell.apply(chart, arguments); };
    return chart;
  } });
} });
window.alert = function () { faults.push('alert'); };`

func closerSite(t *testing.T, library string) string {
	dir := t.TempDir()
	for to, from := range map[string]string{
		"site.css": "../../templates/css/site.css", "chart.css": "../../templates/css/chart.css", "closer.js": "../../templates/js/closer.js",
		"echarts.js": "../../templates/vendor/echarts.js", "minisearch.js": "../../templates/vendor/minisearch.js",
	} {
		text, err := os.ReadFile(from)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, to), text, 0o644))
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "watch.js"), []byte(watchScript), 0o644))
	page := fmt.Sprintf(closerPage, library)
	odd := sampleYear()
	odd.Name, odd.Months[3].Text = hostile, hostile
	panel, err := Panel(&English)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "panel.js"), fmt.Appendf(nil, "guideOption('panel',0,%s);\n", panel.JSON), 0o644))
	options := ""
	for i, c := range []struct {
		call  string
		chart interface{ Option() (Option, error) }
	}{{"guideYears", sampleYears()}, {"guideOption", sampleStacked()}, {"guideYears", Years{Years: []Year{odd}, Words: &English}}} {
		made, err := c.chart.Option()
		require.NoError(t, err)
		options += fmt.Sprintf("%s(%q,%d,%s);\n", c.call, strconv.Itoa(i), made.Height, made.JSON)
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

	eval[bool](t, ctx, `guideCharts.today(4.5), document.querySelector('.chart-closer').click(), true`)
	assert.Equal(t, "Loading", eval[string](t, ctx, `document.querySelector('.chart-closer').textContent`))
	require.True(t, eval[bool](t, ctx, until+`(function () { return document.querySelectorAll('.chart-live svg path').length > 100; })`))
	for i, want := range []string{"Lake of the Three Sisters", "Flies to expect on a visit", "onerror=alert(1)"} {
		text := eval[string](t, ctx, fmt.Sprintf(`document.querySelectorAll('.chart-live')[%d].textContent`, i))
		assert.Contains(t, text, want)
	}
	assert.Equal(t, "Close the closer view|false|Point at a bar", eval[string](t, ctx,
		`(function (b) { return b.textContent + '|' + b.disabled + '|' + b.nextElementSibling.textContent; })(document.querySelector('.chart-closer'))`))

	// a bar for each month with a number, hatching for each that nobody looked in, a mark for each find
	assert.Equal(t, []string{"own 4 4", "thin 2 2", "unlooked 3 3", "strip 6", "finds 3", "today 0 1", "today:1 0 1"}, eval[[]string](t, ctx,
		`shown[0].series.map(function (s) {
			return [s.id, s.data.filter(function (d) { return d.value; }).length].concat(s.markLine && s.markLine.data.length ? s.markLine.data.length : []).join(' '); })`))
	assert.Equal(t, "April: 71\u00a0%\n80 % range 58–83\u00a0%\nfound on 9 of 12 visits in 3 years\nown visits", eval[string](t, ctx,
		`shown[0].series[0].data[3].name`))

	// a pointer over April's bar shows its text, in the drawing, without a fault
	eval[bool](t, ctx, `(scrollTo(0, 0), true)`) // the click moved the focus
	april := eval[[]float64](t, ctx, `(function (b) { return [b.left + 52 + (b.width - 64) / 12 * 3.4, b.top + 70]; })(
		document.querySelector('.chart-live').getBoundingClientRect())`)
	for step := range 3 {
		require.NoError(t, chromedp.Do(ctx, chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, april[0]+float64(step), april[1])))
	}
	assert.True(t, eval[bool](t, ctx, until+`(function () { return document.querySelector('.chart-live').textContent.includes('visits in 3 years'); })`), "a tooltip")
	assert.Contains(t, eval[string](t, ctx, `document.querySelector('.chart-live').innerHTML`), "#2f6f78", "the style sheet's colour")

	eval[bool](t, ctx, `document.querySelector('.chart-closer').click(), true`)
	assert.Equal(t, "Look closer|0", eval[string](t, ctx, `document.querySelector('.chart-closer').textContent + '|' +
		document.querySelectorAll('.chart-live').length`))
	assert.Empty(t, eval[[]string](t, ctx, `faults`))
}

func TestLookCloserSaysThatItFailed(t *testing.T) {
	ctx := browser.Open(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(closerSite(t, "missing.js"))))
	require.True(t, eval[bool](t, ctx, until+`(function () { return !document.querySelector('.chart-closer').hidden; })`))
	eval[bool](t, ctx, `document.querySelector('.chart-closer').click(), true`)
	assert.True(t, eval[bool](t, ctx, until+`(function () { return document.querySelector('.chart-status').textContent === 'Not here'; })`))
	assert.Equal(t, "Look closer|false", eval[string](t, ctx, `(function (b) { return b.textContent + '|' + b.disabled; })(document.querySelector('.chart-closer'))`))
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
