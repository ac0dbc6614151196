package browser

// The site opened from disk: the tools work, and nothing is asked for but its own files.

import (
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

func TestFromDisk(t *testing.T) {
	root := "file://" + filepath.ToSlash(site(t)) + "/"
	b := newTab(t, root)
	b.on("2027-05-15")
	b.size(360, 800, 1)

	for _, p := range oneOfEachKind(t) {
		b.visit(root + p)
		b.settle()
		assert.Empty(t, eval[[]string](b, unseen), "%s: pictures", p)
		assert.Greater(t, eval[int](b, `Array.from(document.styleSheets).reduce(function (n, s) { try { return n + s.cssRules.length; } catch (e) { return n + 1; } }, 0)`), 1, p)
		b.sound(p)
	}

	b.visit(root + "rivers/ullavane.html")
	assert.Contains(t, eval[string](b, `document.querySelector('.answer h2').innerText`), "15 May")
	assert.Positive(t, eval[int](b, `document.querySelectorAll('.flies > li').length`))
	eval[bool](b, `(function (p) { p.value = '2027-09-20'; p.dispatchEvent(new Event('change')); return true; })(document.getElementById('d'))`)
	assert.Contains(t, eval[string](b, `document.querySelector('.answer h2').innerText`), "20 September")
	assert.Contains(t, eval[string](b, `document.querySelector('.age').innerText`), "5", "months since 24 November, on 15 May")

	eval[bool](b, `document.querySelector('.chart-closer:not([hidden])').click(), true`)
	b.until(`document.querySelectorAll('.chart-live svg path').length > 20`, "the closer view is drawn")
	b.sound("the closer view")

	b.visit(root + "index.html")
	b.do(chromedp.SendKeys(chromedp.CSS(`#search input`), "granom\r"))
	b.until(`/search\.html/.test(location.href) && document.querySelectorAll('#search-found a').length > 0`, "the front page's search leads to its answers")
	assert.Contains(t, eval[string](b, `document.querySelector('#search-found').innerText`), "Grannom", "misspelt, and found")
	b.sound("search")

	b.visit(root + "sieve.html")
	before := eval[string](b, `document.querySelector('#sieve-flies').innerText`)
	eval[bool](b, `document.querySelectorAll('#sieve-tiles button')[1].click(), true`)
	b.settle()
	assert.NotEqual(t, before, eval[string](b, `document.querySelector('#sieve-flies').innerText`), "a tick reorders the flies")
	b.sound("sieve")

	b.visit(root + "trip/ullavane.html")
	b.until(`document.querySelector('#trip-list').innerText.trim().length > 20`, "a tying list for the dates")
	b.sound("trip")
}
