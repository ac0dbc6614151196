package browser

// The way to what a reader wants: by two taps, by keyboard alone, and on the first screen of a phone.

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTwoTapsToThisWaterAroundToday(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15")
	b.size(360, 640, 2)
	b.visit(server.URL + below)
	b.settle()
	taps := 0
	b.do(chromedp.Tap(chromedp.CSS(`.water a`)))
	taps++
	b.until(`document.documentElement.dataset.kind === 'river' && document.readyState === 'complete'`, "a water's page")
	b.settle()
	assert.LessOrEqual(t, taps, 2)
	assert.Contains(t, eval[string](b, `document.querySelector('.answer h2').innerText`), "15 May")
	assert.Positive(t, eval[int](b, `Array.prototype.filter.call(document.querySelectorAll('.flies > li'), function (c) { return c.checkVisibility(); }).length`))
	b.sound("two taps")
}

// A water's page on a phone, in season: the first fly's name, state, chance, stage, hours, hook and
// dressing stand above the fold, and the season and cautions before them.
func TestFirstScreen(t *testing.T) {
	server := serve(t, site(t))
	for _, c := range []struct{ water, day string }{{"ullavane", "2027-05-15"}, {"pellowbourne", "2027-06-10"}, {"fellock-burn", "2027-05-15"}, {"harrowsett-reservoir", "2027-05-15"}} {
		t.Run(c.water, func(t *testing.T) {
			b := newTab(t, server.URL+below)
			b.withoutWorker()
			b.on(c.day)
			b.size(360, 640, 2)
			b.visit(server.URL + below + "rivers/" + c.water + ".html")
			b.settle()
			bottom := func(what string) float64 {
				return eval[float64](b, `(function () {
					var e = Array.prototype.find.call(document.querySelectorAll('`+what+`'), function (e) { return e.checkVisibility() && e.innerText.trim(); });
					return e ? e.getBoundingClientRect().bottom : -1;
				})()`)
			}
			for what, selector := range map[string]string{
				"what is on, its stage and hours": ".answer dd small", "how likely": ".answer small b", "size": ".answer span b",
				"dressing": ".answer dd a", "the law": ".law .plain",
			} {
				at := bottom(selector)
				assert.Positive(t, at, "%s is not shown", what)
				assert.LessOrEqual(t, at, 640.0, "%s is below the fold", what)
			}
			top := eval[[]float64](b, `['.law .plain', '.law a', '.answer'].map(function (s) { return document.querySelector(s).getBoundingClientRect().top; })`)
			assert.Less(t, top[0], top[2], "seasons before advice")
			assert.Less(t, top[1], top[2], "cautions before advice")
			b.sound("first screen")
		})
	}
}

// Ahead or behind speaks for thirty days after the newest reading by the reader's date, whenever the guide was built.
func TestAheadByTheReadersDate(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2026-12-01")
	newest := ""
	for _, c := range []struct {
		on     string
		silent bool
	}{{"2026-11-13", true}, {"2026-11-14", false}, {"2026-12-14", false}, {"2026-12-15", true}, {"2027-11-20", true}} {
		b.visit(server.URL + below + "rivers/ullavane.html?on=" + c.on)
		b.settle()
		newest = eval[string](b, `document.querySelector('.ahead').dataset.newest`)
		assert.Equal(t, c.silent, eval[bool](b, `document.querySelector('.ahead').hidden`), c.on)
		assert.Equal(t, !c.silent, eval[bool](b, `document.querySelector('.ahead').nextElementSibling.hidden`), c.on)
	}
	assert.Equal(t, "2026-11-14", newest, "of the demo's logger; the dates above go by it")
}

// The lines of what to put up name dressings only, though the first of a fly's sexes may have none.
func TestShortListNamesDressings(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-04-20")
	lines := 0
	for _, water := range []string{"pellowbourne", "harrowsett-reservoir"} {
		b.visit(server.URL + below + "rivers/" + water + ".html")
		for _, day := range []string{"2027-04-20", "2027-06-10", "2027-09-05"} {
			eval[bool](b, `(function (p) { p.value = '`+day+`'; p.dispatchEvent(new Event('change')); return true; })(document.getElementById('d'))`)
			for _, to := range eval[[]string](b, `Array.from(document.querySelectorAll('.answer dd:not(.why) a'), function (a) { return a.getAttribute('href'); })`) {
				assert.Contains(t, to, "../dressings/", "%s, %s", water, day)
				lines++
			}
		}
	}
	assert.Positive(t, lines)
}

// Where a dressing is listed: by its hours and by where it is fished, and only what the water's rules allow.
func TestSlotsOfTheShortList(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-20")
	for _, c := range []struct{ water, day, slot, line string }{
		{"ullavane", "2027-05-20", "dun", "Soot Speck"},
		{"ullavane", "2027-05-20", "dusk", "Sandy Sedge"},
		{"ullavane", "2027-05-20", "rise", "Rising Upright"},
		{"ullavane", "2027-05-20", "rise", "Sunk Sandy Female"},
		{"ullavane", "2027-05-20", "rise", "said to lay under water"},
		{"lendlow-mere", "2027-05-20", "dusk", "Evening Hum"},
		{"lendlow-mere", "2027-05-20", "rise", "Hanging Midge Pupa"},
		{"pellowbourne", "2027-05-20", "spinner", "Cream Spent"},
		{"pellowbourne", "2027-01-15", "under", "Slim Olive Nymph"},
		{"pellowbourne", "2027-04-20", "spinner", "not allowed here: dry fly and nymph only"},
		{"pellowbourne", "2027-01-15", "rise", ""},
		{"temmering", "2027-03-20", "rise", "Early Spring Spider"},
	} {
		b.visit(server.URL + below + "rivers/" + c.water + ".html?on=" + c.day)
		for _, slot := range []string{"dun", "dusk", "spinner", "rise", "under"} {
			text := eval[string](b, `(function (e) { return e.hidden ? '' : e.innerText; })(document.querySelector('[data-k=`+slot+`]'))`)
			switch {
			case slot == c.slot && c.line == "":
				assert.Empty(t, text, c)
			case slot == c.slot:
				assert.Contains(t, text, c.line, c)
			case c.line != "":
				assert.NotContains(t, text, c.line, "%s: %v", slot, c)
			}
		}
	}
}

// tabTo presses Tab until a link or button that answers the condition has the focus, which has to be
// seen on the way (WCAG 2.2, 2.4.7 and 2.4.11).
func tabTo(b *tab, condition, what string) {
	b.t.Helper()
	for range 120 {
		b.do(chromedp.KeyEvent(kb.Tab))
		state := eval[string](b, `(function () {
			var e = document.activeElement, s = getComputedStyle(e), r = e.getClientRects()[0]; // the first line of a link that is broken
			if (e === document.body) return 'nothing has the focus';
			if (s.outlineStyle === 'none' || parseFloat(s.outlineWidth) < 2) return 'no outline around ' + e.outerHTML.slice(0, 120);
			var x = Math.min(Math.max(r.left + Math.min(r.width / 2, 20), 0), innerWidth - 1), y = Math.min(Math.max(r.top + Math.min(r.height / 2, 8), 0), innerHeight - 1);
			var top = document.elementFromPoint(x, y);
			if (r.bottom <= 0 || r.top >= innerHeight || !top || !(e.contains(top) || top.contains(e))) return 'hidden: ' + e.outerHTML.slice(0, 120);
			return '';
		})()`)
		require.Empty(b.t, state, what)
		if eval[bool](b, `(function (e) { return Boolean(`+condition+`); })(document.activeElement)`) {
			return
		}
	}
	require.Fail(b.t, "120 times Tab, and no "+what)
}

func TestByKeyboard(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	b.on("2027-05-15")
	b.size(1280, 800, 1)
	enter := func(kind string) {
		b.do(chromedp.KeyEvent(kb.Enter))
		b.until(`document.documentElement.dataset.kind === '`+kind+`' && document.readyState === 'complete'`, "a page of the kind "+kind)
		b.settle()
	}
	b.visit(server.URL + below)
	b.settle()
	tabTo(b, `e.className === 'skip'`, "way past the head")
	b.do(chromedp.KeyEvent(kb.Enter))
	assert.Equal(t, "main", eval[string](b, `document.activeElement.id`), "the skip link leads past the head")
	tabTo(b, `e.closest('.water') && e.pathname && e.pathname.indexOf('/rivers/') >= 0`, "water")
	enter("river")
	tabTo(b, `e.closest('.flies h3')`, "fly that is on")
	fly := eval[string](b, `document.activeElement.innerText`)
	enter("fly")
	assert.Equal(t, strings.ToLower(fly), strings.ToLower(eval[string](b, `document.querySelector('h1').innerText`)))
	tabTo(b, `e.pathname && e.pathname.indexOf('/dressings/') >= 0`, "dressing")
	enter("dressing")
	assert.NotEmpty(t, eval[string](b, `document.querySelector('.recipe').innerText`))
	b.sound("by keyboard")
}

// Where the guide doesn't say where it will stand, the page for a missing address finds its way from any depth: its
// links lead home, and it is drawn as the others.
func TestTheWayBackFromNowhere(t *testing.T) {
	server := serve(t, site(t))
	b := newTab(t, server.URL+below)
	b.withoutWorker()
	for _, missing := range []string{"none.html", "rivers/none.html", "rivers/old/deep/none.html"} {
		b.do(chromedp.Navigate(server.URL + below + missing))
		b.until(`Array.from(document.styleSheets).length >= 2 && !!document.querySelector('a.home') && new URL(document.querySelector('a.home').href).pathname === '`+below+`index.html'`, missing)
		assert.Equal(t, below+"search.html", eval[string](b, `new URL(document.querySelector('main a').href).pathname`), missing)
	}
}
