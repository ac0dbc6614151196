package browser

// Readers whose browser differs: larger text, their own colours, no motion, no scripts.

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// At 200 % zoom a window of 1280 pixels is 640 wide to the page, one of 640 pixels is 320 (WCAG 2.2,
// 1.4.4 and 1.4.10); text alone can be made twice as large as well.
func TestTwiceAsLarge(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15")
	for _, p := range oneOfEachKind(t) {
		b.size(320, 480, 2)
		b.visit(server.URL + below + p)
		eval[bool](b, openAll)
		b.settle()
		assert.Empty(t, eval[[]string](b, overflowing), "%s, 640 px at 200 %%", p)
		b.size(640, 480, 2)
		eval[bool](b, `document.documentElement.style.fontSize = '200%', true`)
		b.settle()
		assert.Empty(t, eval[[]string](b, overflowing), "%s, text twice as large", p)
	}
	b.sound("twice as large")
}

// With the reader's own colours, states of the year differ and bars are drawn in ink.
func TestForcedColours(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15")
	b.size(360, 800, 1)
	b.media("", "forced-colors", "active", "prefers-color-scheme", "dark")
	b.visit(server.URL + below + "rivers/ullavane.html")
	b.settle()
	require.True(t, eval[bool](b, `matchMedia('(forced-colors: active)').matches`))
	look := func(selector string) string {
		return eval[string](b, `(function (s) { return s.fill + ' ' + s.stroke; })(getComputedStyle(document.querySelector('`+selector+`')))`)
	}
	found, looked, unlooked := look("svg.yr path.f"), look("svg.yr path.l"), look("svg.yr path.u")
	assert.NotEqual(t, found, looked)
	assert.NotEqual(t, looked, unlooked)
	assert.NotEqual(t, found, unlooked)
	assert.Contains(t, unlooked, "url(", "nobody looked is a pattern")
	faint := eval[[]string](b, `(function () {
		var probe = document.createElement('p'), out = [];
		probe.style.color = 'Canvas'; document.body.append(probe);
		var canvas = getComputedStyle(probe).color;
		document.querySelectorAll('svg.yr *, svg.strip *').forEach(function (e) {
			var s = getComputedStyle(e);
			if (e.closest('[display=none]') || !e.getBBox || e.closest('defs, clipPath, pattern, mask')) return;
			if (!/^(rect|path|line|circle|polygon|text)$/.test(e.tagName)) return;
			if (e.getAttribute('class') === 'ax') return; // a faint line
			var inked = [s.fill, s.stroke].some(function (c) { return c !== 'none' && c !== canvas && !/, 0\)$/.test(c); });
			if (!inked && out.length < 5) out.push(e.outerHTML.slice(0, 120) + ' ' + s.fill + ' ' + s.stroke);
		});
		probe.remove();
		return out;
	})()`)
	assert.Empty(t, faint, "parts of charts that nobody sees")
	b.sound("forced colours")
}

func TestReducedMotion(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.size(360, 800, 1)
	moving := `Array.prototype.filter.call(document.querySelectorAll('*'), function (e) {
		return [getComputedStyle(e), getComputedStyle(e, '::before'), getComputedStyle(e, '::after')].some(function (s) {
			return s.scrollBehavior === 'smooth' || s.transitionDuration.split(', ').some(function (d) { return parseFloat(d) > 0; }) || s.animationName !== 'none';
		});
	}).length`
	b.media("", "prefers-reduced-motion", "reduce")
	b.visit(server.URL + below + "rivers/ullavane.html")
	eval[bool](b, `(delete document.documentElement.dataset.dated, true)`) // as before the script has run: then it waits
	assert.Zero(t, eval[int](b, moving))
	b.media("", "prefers-reduced-motion", "no-preference")
	assert.Positive(t, eval[int](b, moving), "what moves otherwise")
	b.media("", "prefers-reduced-motion", "reduce")
	b.settle()
	assert.Zero(t, eval[int](b, moving))
	b.sound("reduced motion")
}

// shownControls lists what can be worked by hand and is shown, apart from links and what opens a part of the page.
const shownControls = `Array.prototype.filter.call(document.querySelectorAll('button, input, select, textarea, [onclick], [role=button], a:not([href]), a[href="#"]'),
	function (e) { return e.checkVisibility({visibilityProperty: true}); }).map(function (e) { return e.outerHTML.slice(0, 100); })`

var relativeTime = regexp.MustCompile(`(?i)\b(today|right now|this week|this year|months old|yesterday|tomorrow)\b`)

// Without scripts everything is there, with absolute dates and nothing that doesn't work.
func TestScriptsOff(t *testing.T) {
	server := serve(t, site(t))
	with := newTab(t, server.URL+below)
	with.withoutWorker()
	with.size(360, 800, 1)
	b := newTab(t, server.URL+below)
	b.scripts(false)
	b.size(360, 800, 1)
	for _, p := range oneOfEachKind(t) {
		b.visit(server.URL + below + p)
		assert.Empty(t, eval[[]string](b, shownControls), "%s: dead controls", p)
		text := eval[string](b, `document.querySelector('main').innerText`)
		assert.Greater(t, len(strings.Fields(text)), 15, "%s: hardly a word", p)
		if !strings.HasPrefix(p, "species/") && !strings.HasPrefix(p, "notes/") { // the club's own words
			assert.Empty(t, relativeTime.FindAllString(text, -1), "%s: words of relative time", p)
		}
		assert.Empty(t, eval[[]string](b, `Array.prototype.filter.call(document.querySelectorAll('.age, .when, html:not([data-kind=records]) .answer, #now, .after, .back-to-today, .chart-closer'),
			function (e) { return e.checkVisibility(); }).map(function (e) { return e.outerHTML.slice(0, 100); })`), p)
	}
	b.sound("scripts off")

	b.visit(server.URL + below + "rivers/ullavane.html")
	assert.True(t, eval[bool](b, `document.querySelector('.cells').checkVisibility() && document.querySelectorAll('.cells tbody tr').length === 24`), "what is on in every half-month stands open")
	links := func(b *tab) []string {
		return eval[[]string](b, `Array.from(new Set(Array.from(document.querySelectorAll('main a[href*="species/"]'), function (a) { return a.pathname; }))).sort()`)
	}
	with.visit(server.URL + below + "rivers/ullavane.html")
	assert.Equal(t, links(with), links(b), "the same flies with and without scripts")
	assert.Positive(t, eval[int](b, `document.querySelectorAll('svg.yr').length`))
	for _, p := range []string{"search.html", "sieve.html", "sheet.html", "offline.html"} {
		b.visit(server.URL + below + p)
		assert.Positive(t, eval[int](b, `Array.prototype.filter.call(document.querySelectorAll('main a[href], noscript'), function (e) { return e.checkVisibility() && e.innerText.trim(); }).length`),
			"%s: another way, or a word about it", p)
	}
}

// A name of sixty letters without a break, or of another script, makes no page scroll sideways: as text, in rows and in tables.
func TestLongNames(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.size(320, 640, 1)
	b.on("2027-06-10")
	for _, p := range []string{"index.html", "rivers/pellowbourne.html", "species/medium-olive.html", "species/large-dark-olive.html", "species.html", "sieve.html",
		"key/pellowbourne.html", "months/06.html", "year.html", "trip/pellowbourne.html", "lesson/pellowbourne-06.html", "card/pellowbourne.html", "records.html", "plan.html", "sheet.html"} {
		b.visit(server.URL + below + p)
		eval[bool](b, openAll)
		b.settle()
		for _, name := range []string{strings.Repeat("Eintagsfliege", 5)[:60], strings.Repeat("カゲロウ", 15)} {
			eval[bool](b, fmt.Sprintf(`(function (name) {
				var all = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT), was = window.longName || 'Medium olive';
				while (all.nextNode()) all.currentNode.data = all.currentNode.data.split(was).join(name);
				window.longName = name;
				return true;
			})(%q)`, name))
			assert.Empty(t, eval[[]string](b, overflowing), "%s: %s", p, name)
		}
	}
}

// Who has set text twice as large for all pages on a phone, and who reads from right to left: nothing sticks out.
func TestLargeTextAndRightToLeftOnAPhone(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15")
	b.size(360, 740, 1)
	for _, p := range oneOfEachKind(t) {
		b.fontSize(16)
		b.visit(server.URL + below + p)
		eval[bool](b, openAll)
		eval[bool](b, `document.documentElement.dir = 'rtl', true`)
		b.settle()
		assert.Empty(t, eval[[]string](b, overflowing), "%s, right to left", p)
		b.fontSize(32)
		b.visit(server.URL + below + p)
		eval[bool](b, openAll)
		b.settle()
		assert.Empty(t, eval[[]string](b, overflowing), "%s, text twice as large", p)
	}
	b.sound("large text and right to left")
}

// A printed page names itself at the head of every sheet.
func TestRunningHead(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	for p, want := range map[string]string{"rivers/ullavane.html": "Ullavane", "species/large-dark-olive.html": "Large dark olive"} {
		b.visit(server.URL + below + p)
		head := eval[string](b, `(window.dispatchEvent(new Event('beforeprint')), getComputedStyle(document.documentElement).getPropertyValue('--head'))`)
		assert.Contains(t, head, want, p)
	}
	b.sound("running head")
}
