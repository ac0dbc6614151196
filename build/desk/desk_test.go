package desk

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build"
	"guidegen/build/site"
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
		assert.NoDirExists(t, string(d.photos))
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
	require.True(t, checked(d).Sound)
	ctx, cancel := context.WithCancel(t.Context())
	told := make(chan State, 10)
	d.options.Told = tell(told)
	done := make(chan error)
	go func() { done <- d.Watch(ctx) }()
	server := httptest.NewServer(d.Handler())
	defer server.Close()
	resp, err := http.Get(server.URL + "/-/news")
	require.NoError(t, err)
	defer resp.Body.Close()
	news := bufio.NewReader(resp.Body)
	assert.Equal(t, "data: 1 2", line(t, news))

	time.Sleep(100 * time.Millisecond) // until the folder is watched
	write(t, dir, "notes/safety.md", "---\ntitle: Safety\n---\n\nMind the weir.\n")
	assert.True(t, wait(t, told).Sound)
	assert.Equal(t, "data: 2 3", line(t, news))
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
	require.True(t, checked(d).Sound)
	told := make(chan State, 10)
	ctx, cancel := context.WithCancel(t.Context())
	d.options.Told = tell(told)
	done := make(chan error)
	go func() { done <- d.Watch(ctx) }()
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

// What is shown is what publish writes, file by file, also after many changes; and nothing is left running.
func TestTheLastStateIsWhatPublishWrites(t *testing.T) {
	dir := aGuide(t)
	d := aDesk(t, dir)
	require.True(t, checked(d).Sound)
	before := runtime.NumGoroutine()
	for i := range 40 {
		text := fmt.Sprintf("name: Askerdale Water\nkind: rain-fed\naltitude: %d m\nflies:\n  Quick olive: frequent\n", 10+i)
		if i%7 == 3 {
			text = "name: Askerdale Water\nkind: [\n"
		}
		write(t, dir, "rivers/askerdale.yaml", text)
		assert.Equal(t, i%7 != 3, d.Refresh().Sound)
	}
	require.True(t, checked(d).Checked)
	out := filepath.Join(t.TempDir(), "site")
	src, err := build.Find(dir, ".")
	require.NoError(t, err)
	defer src.Close()
	r, err := build.Publish(build.Options{Source: src, Edition: build.Public, Date: d.options.Date(), Out: out})
	require.NoError(t, err)
	_, live, _ := d.now()
	n := 0
	require.NoError(t, filepath.WalkDir(out, func(p string, e os.DirEntry, err error) error {
		address, _ := filepath.Rel(out, p)
		if err != nil || e.IsDir() || address == site.ManifestName {
			return err
		}
		want, err := os.ReadFile(p)
		require.NoError(t, err)
		got, ok, err := live.File(filepath.ToSlash(address))
		require.NoError(t, err)
		assert.True(t, ok, address)
		assert.Equal(t, string(want), string(got), address)
		n++
		return nil
	}))
	assert.Equal(t, r.Files, n)
	assert.Eventually(t, func() bool { return runtime.NumGoroutine() <= before+2 }, 5*time.Second, 10*time.Millisecond)
}

// What only drawing finds, as a photo that is cut short, brings the site before it back.
func TestAFaultFoundByTheCheckBringsTheLastGoodSiteBack(t *testing.T) {
	dir := aGuide(t)
	var photo bytes.Buffer
	require.NoError(t, jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 500, 300)), nil))
	write(t, dir, "photos/photos.yaml", "olive.jpg: {alt: a dun, credit: A. Lens, permission: {scope: site}, shows: {fly: Quick olive}}\n")
	write(t, dir, "photos/olive.jpg", photo.String())
	d := aDesk(t, dir)
	require.True(t, checked(d).Sound)
	_, good, _ := d.now()
	made, err := os.ReadDir(string(d.photos))
	require.NoError(t, err)
	assert.Len(t, made, 2, "made once for all refreshes")

	write(t, dir, "photos/olive.jpg", photo.String()[:photo.Len()*3/4])
	s := checked(d)
	assert.False(t, s.Sound)
	assert.Contains(t, s.Text, "photo-broken")
	_, shown, _ := d.now()
	assert.Same(t, good, shown)
	_, body := get(t, d, "/")
	assert.Contains(t, body, "This is the last good site.")
	assert.Contains(t, body, `data-version="3"`, "shown, shown, and taken back: open pages load again")
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

// checked is the state after a refresh and its check.
func checked(d *Desk) State {
	d.Refresh()
	d.checking.Wait()
	s, _, _ := d.now()
	return s
}

// tell hands on what was found by each check, and by each reading that found errors.
func tell(to chan State) func(State) {
	return func(s State) {
		if s.Checked || !s.Sound {
			to <- s
		}
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
