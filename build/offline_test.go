package build

// The guide on a device without a network, in a browser: the worker takes a whole build or none of
// it, and never serves a page with another build's parts. The site stands in a subfolder, on a
// server that drops every connection while it is "down". Skipped where there is no Chromium, unless
// CI asks for it.

import (
	"context"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/browser"
	"guidegen/content/calendar"
	"guidegen/content/demo"
)

// shore is a server whose site can be replaced, broken and cut off.
type shore struct {
	mu     sync.Mutex
	dir    string            // the site served; "" while there is no network
	other  map[string]string // files served from another site: address → its folder
	broken string            // an address that fails
}

func (s *shore) set(dir string, other map[string]string, broken string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.dir, s.other, s.broken = dir, other, broken
}

func (s *shore) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	address := strings.TrimPrefix(r.URL.Path, "/club/")
	dir, broken := s.dir, s.broken
	if other := s.other[address]; other != "" {
		dir = other
	}
	s.mu.Unlock()
	switch {
	case dir == "":
		panic(http.ErrAbortHandler) // the connection is cut, as without a network
	case broken != "" && address == broken:
		http.Error(w, "broken", http.StatusInternalServerError)
	default:
		w.Header().Set("Cache-Control", "no-store")
		http.StripPrefix("/club/", http.FileServer(http.Dir(dir))).ServeHTTP(w, r)
	}
}

func publishedOn(t *testing.T, day int) string {
	dir := filepath.Join(t.TempDir(), "site")
	r, err := Publish(Options{Source: &Source{Files: demo.FS, How: Demo}, Date: calendar.Date{Year: 2026, Month: time.November, Day: day}, Out: dir})
	require.NoError(t, err)
	require.True(t, r.Sound())
	return dir
}

func ask[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	ctx, cancel := context.WithTimeout(ctx, 90*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(t, err, script)
	return v
}

func TestTheGuideIsKeptOnTheDevice(t *testing.T) {
	ctx := browser.Open(t)
	one, two, three := publishedOn(t, 20), publishedOn(t, 21), publishedOn(t, 22)
	bank := &shore{dir: one}
	server := httptest.NewServer(bank)
	defer server.Close()
	server.Config.ErrorLog = nil
	site := server.URL + "/club/"
	open := func(address string) {
		t.Helper()
		ctx, cancel := context.WithTimeout(ctx, 60*time.Second)
		defer cancel()
		require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(site+address)), address)
	}
	built := func() string { return ask[string](t, ctx, `document.documentElement.dataset.built`) }
	const builds = `caches.keys().then(function (k) { return k.filter(function (n) { return !/notes$/.test(n); }).length; })`
	// settled waits for the worker of the newest script, or for its failure.
	settled := func() string {
		return ask[string](t, ctx, `navigator.serviceWorker.getRegistration().then(function (r) {
			return r.update().catch(function () {}).then(function () {
				return new Promise(function (done) {
					(function look() {
						if (r.installing || r.waiting || r.active.state !== 'activated') setTimeout(look, 100);
						else done(r.active.state);
					}());
				});
			});
		})`)
	}

	open("index.html")
	assert.Equal(t, "2026-11-20", built())
	assert.Equal(t, "activated", ask[string](t, ctx, `navigator.serviceWorker.ready.then(function (r) {
		return new Promise(function (done) { (function look() { r.active.state === 'activated' ? done(r.active.state) : setTimeout(look, 100); }()); }); })`))
	assert.Equal(t, site, ask[string](t, ctx, `navigator.serviceWorker.ready.then(function (r) { return r.scope; })`))
	assert.True(t, ask[bool](t, ctx, `!!document.querySelector('link[rel=manifest]')`))

	// No network: every page, its styles and scripts; and a notice for what isn't there.
	bank.set("", nil, "")
	for _, address := range []string{"", "index.html", "species.html", "rivers/pellowbourne.html", "months/05.html", "sieve.html"} {
		open(address)
		assert.Equal(t, "2026-11-20", built(), address)
		assert.Positive(t, ask[int](t, ctx, `document.styleSheets[0].cssRules.length`), address)
	}
	assert.Equal(t, "58 of 58 flies agree with every tick.", ask[string](t, ctx, `document.getElementById('sieve-count').textContent`))
	open("search.html#q=granom")
	assert.Equal(t, "Grannom", ask[string](t, ctx, `document.querySelector('#search-found a').textContent`))
	open("rivers/nowhere.html")
	assert.Equal(t, site+"offline.html#missing", ask[string](t, ctx, `location.href`))
	assert.False(t, ask[bool](t, ctx, `document.getElementById('keep-missing').hidden`))

	// A new build is taken in the background; the page that is open goes on with the one it came from.
	bank.set(two, nil, "")
	open("rivers/pellowbourne.html")
	assert.Equal(t, "2026-11-20", built(), "the newer build is not here yet")
	settled()
	assert.Equal(t, 2, ask[int](t, ctx, builds))
	const part = `fetch('../index.html').then(function (r) { return r.text(); }).then(function (x) { return /data-built="([^"]*)"/.exec(x)[1]; })`
	assert.Equal(t, "2026-11-20", ask[string](t, ctx, part), "a part of another build")
	open("rivers/pellowbourne.html")
	assert.Equal(t, "2026-11-21", built())
	assert.Equal(t, "2026-11-21", ask[string](t, ctx, part))

	// A build that can't be taken in full is not taken at all: a file that fails, or a site half replaced.
	for _, half := range []map[string]string{nil, {"sieve.html": two}} {
		broken := ""
		if half == nil {
			broken = "sieve.html"
		}
		bank.set(three, half, broken)
		settled()
		for _, address := range []string{"index.html", "sieve.html"} {
			open(address)
			assert.Equal(t, "2026-11-21", built(), "broken %q, half replaced %v", broken, half)
		}
	}
	bank.set(three, nil, "")
	open("index.html")
	settled()
	open("index.html")
	assert.Equal(t, "2026-11-22", built())

	// Builds that no page came from are let go as pages are opened, but not one that another worker is taking.
	const others = `(async function (at) {
		var scope = (await navigator.serviceWorker.ready).scope, mine = 'guide ' + scope + ' ', notes = await caches.open(mine + 'notes');
		await notes.put(scope + '?' + encodeURIComponent('use fill beingtaken'), new Response(JSON.stringify({build: 'beingtaken', at: at})));
		await (await caches.open(mine + 'beingtaken')).put('x.html', new Response('x'));
		for (var r of await notes.keys()) {
			var n = await (await notes.match(r)).json();
			if (n.build !== 'beingtaken') await notes.put(r, new Response(JSON.stringify({build: n.build, at: 0})));
		}
		return true;
	})`
	for _, x := range []struct {
		at   string
		want int
	}{{"0", 1}, {"Date.now()", 2}, {"0", 1}} {
		ask[bool](t, ctx, others+"("+x.at+")")
		open("year.html")
		assert.Equal(t, "2026-11-22", built())
		require.Eventually(t, func() bool { return ask[int](t, ctx, builds) == x.want }, 20*time.Second, 100*time.Millisecond, x.at)
		time.Sleep(500 * time.Millisecond) // nothing more is let go afterwards
		assert.Equal(t, x.want, ask[int](t, ctx, builds), x.at)
	}
	assert.LessOrEqual(t, ask[int](t, ctx, `caches.keys().then(function (k) { return caches.open(k.filter(function (n) { return /notes$/.test(n); })[0]); }).then(function (c) { return c.keys(); }).then(function (k) { return k.length; })`), 3,
		"notes of pages closed long ago")

	// Taken off the device, nothing of it stays.
	open("offline.html")
	require.Eventually(t, func() bool { return ask[bool](t, ctx, `!document.getElementById('keep-drop').hidden`) }, time.Minute, 100*time.Millisecond)
	assert.Contains(t, ask[string](t, ctx, `document.getElementById('keep-says').textContent`), "is kept on this device")
	ask[bool](t, ctx, `(document.getElementById('keep-drop').click(), true)`)
	require.Eventually(t, func() bool { return ask[int](t, ctx, `caches.keys().then(function (k) { return k.length; })`) == 0 }, time.Minute, 100*time.Millisecond)
}
