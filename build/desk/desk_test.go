package desk

import (
	"bufio"
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build"
	"guidegen/content/calendar"
)

const (
	guideYAML = "format: 1\nname: Flies of a test\npublisher: A club\nbasis: memory\n"
	account   = "---\nname: Quick olive\ngroup: upwinged\nflights:\n  spring: {from: early Apr, to: late May, abundance: frequent}\n---\n\nA fly of April.\n"
	water     = "name: Askerdale Water\nkind: rain-fed\nflies:\n  Quick olive: frequent\n"
)

// aGuide writes a small guide.
func aGuide(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	write(t, dir, "guide.yaml", guideYAML)
	write(t, dir, "species/quick-olive.md", account)
	write(t, dir, "rivers/askerdale.yaml", water)
	return dir
}

func write(t *testing.T, dir, name, text string) {
	t.Helper()
	file := filepath.Join(dir, filepath.FromSlash(name))
	require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
}

func aDesk(t *testing.T, dir string) *Desk {
	t.Helper()
	src, err := build.Find(dir, ".")
	require.NoError(t, err)
	t.Cleanup(func() { src.Close() })
	d, err := New(Options{Source: src, Date: func() calendar.Date { return calendar.Date{Year: 2026, Month: 5, Day: 3} }})
	require.NoError(t, err)
	t.Cleanup(func() {
		require.NoError(t, d.Close())
		assert.NoDirExists(t, d.dir)
	})
	return d
}

func get(t *testing.T, d *Desk, path string) (int, string) {
	t.Helper()
	r := httptest.NewRequest(http.MethodGet, "http://127.0.0.1:1"+path, nil)
	w := httptest.NewRecorder()
	d.Handler().ServeHTTP(w, r)
	return w.Code, w.Body.String()
}

func TestTheDeskShowsTheSite(t *testing.T) {
	dir := aGuide(t)
	d := aDesk(t, dir)
	s := d.Refresh()
	require.True(t, s.Sound, s.Text)
	code, body := get(t, d, "/")
	assert.Equal(t, http.StatusOK, code)
	assert.Contains(t, body, "Flies of a test")
	assert.Contains(t, body, `src="/-/desk.js" data-version="1"`)
	assert.NotContains(t, body, "desk-strip\"", "nothing is wrong")
	code, body = get(t, d, "/rivers/askerdale.html")
	assert.Equal(t, http.StatusOK, code)
	assert.Contains(t, body, "Quick olive")
	code, body = get(t, d, "/assets/chart.css")
	assert.Equal(t, http.StatusOK, code)
	assert.NotContains(t, body, "desk")
	code, _ = get(t, d, "/nowhere.html")
	assert.Equal(t, http.StatusNotFound, code)
	write(t, dir, "guide.yaml", guideYAML+"address: https://club.example/our/flies/\n")
	require.True(t, d.Refresh().Sound)
	code, body = get(t, d, "/rivers/no/where.html")
	assert.Equal(t, http.StatusNotFound, code)
	assert.Contains(t, body, `href="/assets/site.css"`, "here the site stands at the root")
	assert.NotContains(t, body, "/our/flies/")
	for _, p := range []string{"/../guide.yaml", "/%2e%2e/%2e%2e/etc/passwd", "/rivers/../../x"} {
		code, body = get(t, d, p)
		assert.Contains(t, []int{http.StatusNotFound, http.StatusTemporaryRedirect}, code, p)
		assert.NotContains(t, body, "root:")
	}
}

func TestTheDeskKeepsTheLastGoodSite(t *testing.T) {
	dir := aGuide(t)
	d := aDesk(t, dir)
	require.True(t, d.Refresh().Sound)
	_, good := get(t, d, "/rivers/askerdale.html")

	write(t, dir, "rivers/askerdale.yaml", strings.Replace(water, "kind", "kid", 1))
	s := d.Refresh()
	assert.False(t, s.Sound)
	assert.True(t, s.Site)
	code, body := get(t, d, "/rivers/askerdale.html")
	assert.Equal(t, http.StatusOK, code)
	assert.Contains(t, body, "This is the last good site.")
	_, rest, _ := strings.Cut(good, "<main")
	assert.Contains(t, body, rest, "the page itself is as it was")
	_, body = get(t, d, "/-/problems")
	assert.Contains(t, body, "rivers/askerdale.yaml:2:1\n  reads   kid: rain-fed\n  wrong   unknown key &#34;kid&#34;  (unknown-key)\n  right   &#34;kind&#34;? ")
	assert.Contains(t, body, "To the last good site")

	write(t, dir, "rivers/askerdale.yaml", water)
	assert.True(t, d.Refresh().Sound)
	_, body = get(t, d, "/rivers/askerdale.html")
	assert.NotContains(t, body, "This is the last good site.")
}

func TestTheDeskWithoutAGoodSite(t *testing.T) {
	dir := aGuide(t)
	write(t, dir, "rivers/askerdale.yaml", "<script>alert(1)</script>: 1\n")
	d := aDesk(t, dir)
	assert.False(t, d.Refresh().Sound)
	code, body := get(t, d, "/rivers/askerdale.html")
	assert.Equal(t, http.StatusOK, code)
	assert.Contains(t, body, "There is no site yet")
	assert.NotContains(t, body, "<script>alert", "the guide's text isn't a markup")
}

// A page elsewhere may have a name that leads to this machine: it gets nothing.
func TestOnlyThisMachineIsAnswered(t *testing.T) {
	d := aDesk(t, aGuide(t))
	d.Refresh()
	for host, want := range map[string]int{"127.0.0.1:8417": 200, "localhost:8417": 200, "[::1]:8417": 200, "guide.example:8417": 403, "192.168.1.7": 403} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.Host = host
		w := httptest.NewRecorder()
		d.Handler().ServeHTTP(w, r)
		assert.Equal(t, want, w.Code, host)
	}
	r := httptest.NewRequest(http.MethodPost, "http://127.0.0.1/", nil)
	w := httptest.NewRecorder()
	d.Handler().ServeHTTP(w, r)
	assert.Equal(t, http.StatusMethodNotAllowed, w.Code)
}

// A change in the folder, in a new folder too, comes to an open page.
func TestAChangeIsTold(t *testing.T) {
	dir := aGuide(t)
	d := aDesk(t, dir)
	d.Refresh()
	ctx, cancel := context.WithCancel(t.Context())
	told := make(chan State, 10)
	done := make(chan error)
	go func() { done <- d.Watch(ctx, func(s State) { told <- s }) }()
	server := httptest.NewServer(d.Handler())
	defer server.Close()
	resp, err := http.Get(server.URL + "/-/news")
	require.NoError(t, err)
	defer resp.Body.Close()
	news := bufio.NewReader(resp.Body)
	assert.Equal(t, "data: 1", line(t, news))

	time.Sleep(100 * time.Millisecond) // until the folder is watched
	write(t, dir, "notes/safety.md", "---\ntitle: Safety\n---\n\nMind the weir.\n")
	assert.True(t, wait(t, told).Sound)
	assert.Equal(t, "data: 2", line(t, news))
	time.Sleep(2 * settle)
	write(t, dir, "notes/safety.md", "---\ntitle: Safety first\n---\n\nMind the weir.\n")
	assert.True(t, wait(t, told).Sound)
	_, body := get(t, d, "/notes/safety.html")
	assert.Contains(t, body, "Safety first")

	// What editors leave, and a site published into the guide's folder, are no change.
	write(t, dir, ".safety.md.swp", "x")
	write(t, dir, "notes/safety.md~", "x")
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "published"), 0o755))
	write(t, dir, "published/index.html", "x")
	select {
	case s := <-told:
		assert.Fail(t, "refreshed for nothing", s.Summary)
	case <-time.After(4 * settle):
	}
	cancel()
	assert.NoError(t, <-done)
}

// Where another folder is put in the guide's place the desk shows that one, and goes on watching it.
func TestTheGuidesFolderIsReplaced(t *testing.T) {
	at := filepath.Join(t.TempDir(), "guide")
	require.NoError(t, os.Rename(aGuide(t), at))
	d := aDesk(t, at)
	require.True(t, d.Refresh().Sound)
	told := make(chan State, 10)
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error)
	go func() { done <- d.Watch(ctx, func(s State) { told <- s }) }()
	time.Sleep(2 * settle)

	require.NoError(t, os.Rename(at, at+"-old"))
	s := wait(t, told)
	assert.False(t, s.Sound)
	assert.Contains(t, s.Text, "the guide's folder can't be read")
	time.Sleep(2 * settle)
	other := aGuide(t)
	write(t, other, "guide.yaml", strings.Replace(guideYAML, "Flies of a test", "Flies of another", 1))
	require.NoError(t, os.Rename(other, at))
	assert.True(t, wait(t, told).Sound)
	_, body := get(t, d, "/")
	assert.Contains(t, body, "Flies of another")

	time.Sleep(2 * settle)
	write(t, at, "notes/safety.md", "---\ntitle: Safety\n---\n\nMind the weir.\n")
	assert.True(t, wait(t, told).Sound)
	code, _ := get(t, d, "/notes/safety.html")
	assert.Equal(t, http.StatusOK, code)
	cancel()
	assert.NoError(t, <-done)
}

func wait(t *testing.T, told chan State) State {
	t.Helper()
	select {
	case s := <-told:
		return s
	case <-time.After(30 * time.Second):
		require.Fail(t, "no change was told")
		return State{}
	}
}

func line(t *testing.T, r *bufio.Reader) string {
	t.Helper()
	for {
		s, err := r.ReadString('\n')
		require.NoError(t, err)
		if s = strings.TrimSpace(s); s != "" {
			return s
		}
	}
}

// A fault of the program is told as one, and the desk stays up.
func TestTheDeskOutlivesAFault(t *testing.T) {
	d, err := New(Options{Source: nil, Date: func() calendar.Date { return calendar.Date{Year: 2026, Month: 5, Day: 3} }})
	require.NoError(t, err)
	defer d.Close()
	s := d.Refresh()
	assert.False(t, s.Sound)
	assert.Contains(t, s.Text, "a fault of the program, not of the guide")
}
