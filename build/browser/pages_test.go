package browser

// Every kind of page in light and dark, at three widths: nothing runs out of the page, everything
// loads, nothing is said on the console, and axe-core finds nothing.

import (
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// overflowing lists what sticks out of the page, except in boxes that scroll by themselves.
const overflowing = `(function () {
	var root = document.documentElement, wide = root.clientWidth, out = [];
	if (root.scrollWidth <= wide) return out;
	out.push(root.scrollWidth + ' of ' + wide);
	document.querySelectorAll('body *').forEach(function (e) {
		var r = e.getBoundingClientRect();
		if (r.right <= wide + 1 || !r.width) return;
		for (var p = e.parentElement; p && p !== document.body; p = p.parentElement) if (getComputedStyle(p).overflowX !== 'visible') return;
		if (out.length < 6) out.push(e.tagName + '.' + e.className + '#' + e.id + ' to ' + Math.round(r.right));
	});
	return out;
})()`

// unseen lists pictures that don't load, even when they are asked for at once.
const unseen = `Promise.all(Array.prototype.map.call(document.images, function (i) {
	i.loading = 'eager';
	return i.decode().then(function () { return ''; }, function () { return i.src; });
})).then(function (l) { return l.filter(Boolean); })`

// axe gives what axe-core has to say, one line a rule. The rules are those of WCAG 2.0 to 2.2, levels
// A and AA, and axe-core's own good practice.
const axe = `axe.run(document, {runOnly: {type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}, resultTypes: ['violations']})
	.then(function (r) { return r.violations.map(function (v) { return v.id + ' ×' + v.nodes.length + ': ' + v.help + ': ' +
		v.nodes.slice(0, 3).map(function (n) { return n.target.join(' ') + ' (' + n.failureSummary.replace(/\s+/g, ' ').slice(0, 300) + ')'; }).join('; '); }); })`

const openAll = `document.querySelectorAll('details').forEach(function (d) { d.open = true; }), true`

func TestEveryKindOfPage(t *testing.T) {
	script, err := os.ReadFile("../../testdata/vendor/axe.min.js")
	require.NoError(t, err)
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15") // flies of the season are shown, and the copy is some months old
	for _, p := range oneOfEachKind(t) {
		t.Run(p, func(t *testing.T) {
			b.t = t
			b.size(1280, 900, 1)
			b.media("", "prefers-color-scheme", "light")
			b.visit(server.URL + below + p)
			b.settle()
			assert.Empty(t, eval[[]string](b, unseen), "pictures")
			eval[bool](b, string(script)+";true")
			for _, theme := range []string{"light", "dark"} {
				b.media("", "prefers-color-scheme", theme)
				for _, width := range []int64{1280, 768, 320} {
					b.size(width, 900, 1)
					b.settle()
					assert.Empty(t, eval[[]string](b, overflowing), "%s, %d px wide", theme, width)
				}
				long := p == "booklet.html" // its parts are those of a water's booklet, which is looked through
				if theme == "light" {
					if !long {
						assert.Empty(t, eval[[]string](b, axe), "light, as it comes, 320 px wide")
					}
					continue
				}
				eval[bool](b, openAll)
				b.settle()
				assert.Empty(t, eval[[]string](b, overflowing), "all opened, 320 px wide")
				b.size(1280, 900, 1)
				b.settle()
				if !long {
					assert.Empty(t, eval[[]string](b, axe), "dark, all opened, 1280 px wide")
				}
			}
			b.sound("while it was shown")
		})
	}
}

// What axe-core and the other checks would find, they do find.
func TestTheChecksFind(t *testing.T) {
	script, err := os.ReadFile("../../testdata/vendor/axe.min.js")
	require.NoError(t, err)
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.size(320, 900, 1)
	b.visit(server.URL + below + "404.html")
	b.settle()
	b.sound("as it comes")
	eval[bool](b, string(script)+`;document.body.insertAdjacentHTML('beforeend', '<p><img src="nowhere.png"><button></button></p><table class="x"><tr><td>' + 'w'.repeat(900) + '</table>');true`)
	assert.NotEmpty(t, eval[[]string](b, unseen))
	assert.Contains(t, strings.Join(eval[[]string](b, overflowing), "\n"), "TABLE.x")
	found := strings.Join(eval[[]string](b, axe), "\n")
	assert.Contains(t, found, "image-alt")
	assert.Contains(t, found, "button-name")
	eval[bool](b, `(function () {
		var s = document.createElement('script'); s.textContent = 'window.inline = true'; document.head.append(s);
		new Image().src = 'http://127.0.0.2:9/elsewhere.png'; console.log('a word'); setTimeout(function () { undefined.x; }, 0);
		return !window.inline;
	})()`)
	b.do(chromedp.Sleep(300e6))
	faults, _ := b.taken()
	all := strings.Join(faults, "\n")
	for _, want := range []string{"404", "Content Security Policy", "asks for http://127.0.0.2:9/elsewhere.png", "a word", "exception", "inline script"} {
		assert.Contains(t, all, want)
	}
}

// A page that comes in doesn't jump under the reader's finger: the layout shifts by less than a fiftieth;
// the Web Vitals call a tenth good.
func TestNothingJumps(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.before(`window.jumped = 0; new PerformanceObserver(function (l) { l.getEntries().forEach(function (e) { jumped += e.value; }); }).observe({type: 'layout-shift', buffered: true})`)
	for _, day := range []string{"2027-05-15", "2027-12-01"} { // flies of the season, and a close season
		b.on(day)
		b.size(412, 823, 1)
		for _, p := range []string{"index.html", "rivers/ullavane.html", "rivers/pellowbourne.html", "species/large-dark-olive.html"} {
			b.visit(server.URL + below + p)
			b.settle()
			b.do(chromedp.Sleep(300e6))
			assert.Less(t, eval[float64](b, `jumped`), 0.02, "%s on %s", p, day)
		}
	}
	b.sound("as pages came in")
}
