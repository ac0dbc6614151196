package page

// Guides for the tests: the demo, and small ones of kinds that the demo is not.

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/trial"
	"guidegen/build/view"
	"guidegen/content/demo"
	"guidegen/templates"
)

// The guides of the package trial, by short names.
var (
	built, demoBook, file = trial.Built, trial.Demo, trial.File
	oneFly, south, many   = trial.OneFly, trial.South, trial.Many
	twoFlights            = trial.TwoFlights
)

type fakeSite = trial.Site

func bookOf(t testing.TB, files fstest.MapFS) *figures.Book {
	t.Helper()
	b, err := trial.Book(files)
	require.NoError(t, err)
	return b
}

// demoWithout is the demo without some of its files.
func demoWithout(t testing.TB, names ...string) *figures.Book {
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || slices.Contains(names, name) {
			return err
		}
		b, err := fs.ReadFile(demo.FS, name)
		files[name] = &fstest.MapFile{Data: b}
		return err
	}))
	return bookOf(t, files)
}

// drawAll draws every page of a book, the demo's but once: they are not to be changed.
func drawAll(t testing.TB, book *figures.Book) map[string]string {
	t.Helper()
	if book != demoBook() {
		return drawAnew(t, book)
	}
	demoOnce.Do(func() { demoPages = drawAnew(t, book) })
	return demoPages
}

var (
	demoOnce  sync.Once
	demoPages map[string]string
)

// drawAnew draws every page of a book, in order.
func drawAnew(t testing.TB, book *figures.Book) map[string]string {
	t.Helper()
	sheets, err := All(book, view.Deps{Site: fakeSite{Book: book}})
	require.NoError(t, err)
	out := map[string]string{}
	for _, s := range sheets {
		d, err := s.Draw()
		require.NoError(t, err, s.Address)
		require.NotContains(t, out, s.Address, "two pages at one address")
		out[s.Address] = string(d.HTML)
	}
	return out
}

// TestWriteDemo writes the demo's pages into a folder to be looked at: PAGES_TO=folder go test -run WriteDemo.
func TestWriteDemo(t *testing.T) {
	dir := os.Getenv("PAGES_TO")
	if dir == "" {
		t.Skip("PAGES_TO names no folder")
	}
	book := demoBook()
	switch os.Getenv("PAGES_OF") {
	case "one":
		book = bookOf(t, oneFly())
	case "south":
		book = bookOf(t, south())
	case "many":
		book = bookOf(t, many(300))
	}
	for address, html := range drawAll(t, book) {
		write(t, filepath.Join(dir, address), []byte(html))
	}
	assets, err := view.AssetFiles()
	require.NoError(t, err)
	for _, a := range assets {
		b, err := templates.Files.ReadFile(a.File)
		require.NoError(t, err)
		write(t, filepath.Join(dir, a.Address), b)
	}
}

func write(t testing.TB, name string, data []byte) {
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, data, 0o644))
}
