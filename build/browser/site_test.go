package browser

// The demo guide's site, published once for all tests, and a server that has it in a subfolder.

import (
	"bytes"
	"compress/gzip"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build"
	"guidegen/content/calendar"
)

// built is the day that the site is built for; readers come later.
const built = "2026-11-24"

var demo struct {
	once sync.Once
	dir  string
	err  error
}

// site is the folder of the published demo guide.
func site(t *testing.T) string {
	t.Helper()
	demo.once.Do(func() {
		var dir string
		if dir, demo.err = os.MkdirTemp("", "guidegen-site-"); demo.err != nil {
			return
		}
		shared.stop = append(shared.stop, func() { os.RemoveAll(dir) })
		demo.dir = filepath.Join(dir, "site")
		demo.err = publish("", demo.dir, built)
	})
	require.NoError(t, demo.err)
	return demo.dir
}

// publish makes the site of a guide's folder; "" is the demo.
func publish(guide, dir, day string) error {
	date, err := calendar.ParseDate(day)
	if err != nil {
		return err
	}
	source, err := build.Find(guide, os.TempDir()) // a folder without a guide: the demo
	if err != nil {
		return err
	}
	defer source.Close()
	_, err = build.Publish(build.Options{Source: source, Date: date, Out: dir})
	return err
}

// below is the folder that the site has on its host.
const below = "/club/hatches/"

// serve serves a folder as a plain host does: compressed, with the site's own page where there is none.
func serve(t *testing.T, dir string) *httptest.Server {
	t.Helper()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name, inside := strings.CutPrefix(r.URL.Path, below)
		if !inside {
			http.NotFound(w, r)
			return
		}
		if name == "" || strings.HasSuffix(name, "/") {
			name += "index.html"
		}
		status := http.StatusOK
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(path.Clean("/"+name))))
		if err != nil {
			status, name = http.StatusNotFound, "404.html"
			text, _ = os.ReadFile(filepath.Join(dir, name))
		}
		w.Header().Set("Content-Type", kindOf[path.Ext(name)])
		w.Header().Set("Cache-Control", "no-cache")
		if slices.Contains([]string{".html", ".css", ".js", ".json", ".svg", ".webmanifest"}, path.Ext(name)) {
			w.Header().Set("Content-Encoding", "gzip")
			text = zipped(text)
		}
		w.WriteHeader(status)
		_, _ = w.Write(text)
	}))
	t.Cleanup(server.Close)
	return server
}

var kindOf = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".json": "application/json", ".svg": "image/svg+xml", ".png": "image/png", ".jpg": "image/jpeg", ".webp": "image/webp",
	".webmanifest": "application/manifest+json", ".txt": "text/plain; charset=utf-8", ".xml": "application/atom+xml", ".ics": "text/calendar",
}

// zipped compresses as web servers do without being told otherwise.
func zipped(text []byte) []byte {
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	_, _ = w.Write(text)
	_ = w.Close()
	return out.Bytes()
}

// pages lists the addresses of all pages.
func pages(t *testing.T) (list []string) {
	t.Helper()
	require.NoError(t, fs.WalkDir(os.DirFS(site(t)), ".", func(p string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(p, ".html") {
			list = append(list, p)
		}
		return err
	}))
	return list
}

var kindAttribute = regexp.MustCompile(`<html[^>]* data-kind="([^"]*)"`)

// expected are the kinds that a guide has; kinds that come later are tried without being listed here.
var expected = strings.Fields(`front river flies fly year month dressings dressing key sieve trip search explained records
	note glossary sources credits corrections cautions notfound sheet card booklet offline`)

// shown are pages that are always tried: those a reader comes to first, and the keys that are not the whole one.
var shown = []string{"index.html", "rivers/ullavane.html", "species/large-dark-olive.html", "key.html", "key/ullavane.html", "key/ullavane-05.html", "months/05.html", "booklet.html", "booklet/ullavane.html"}

// oneOfEachKind lists pages: those always tried, and one of every other kind.
func oneOfEachKind(t *testing.T) (list []string) {
	t.Helper()
	all := pages(t)
	for _, p := range shown {
		require.Contains(t, all, p)
	}
	seen := map[string]bool{}
	for _, p := range append(slices.Clone(shown), all...) {
		text, err := os.ReadFile(filepath.Join(site(t), filepath.FromSlash(p)))
		require.NoError(t, err)
		m := kindAttribute.FindSubmatch(text)
		if m == nil {
			continue // a small page at an older address
		}
		if kind := string(m[1]); !seen[kind] || len(list) < len(shown) {
			seen[kind] = true
			list = append(list, p)
		}
	}
	for _, kind := range expected {
		assert.True(t, seen[kind], "the site has no page of the kind %s", kind)
	}
	return list
}
