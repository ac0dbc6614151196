package page

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
	"guidegen/templates"
)

func demoBook(t testing.TB) *figures.Book {
	var ps content.Problems
	built := calendar.Date{Year: 2026, Month: 11, Day: 20}
	g, err := guide.Read(demo.FS, built, &ps)
	require.NoError(t, err)
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			ps.Print(os.Stderr, p)
		}
	}
	require.NotNil(t, g)
	return figures.Reckon(guide.Cut(g, false), built)
}

func TestWriteDemo(t *testing.T) {
	dir := os.Getenv("PAGES_TO")
	if dir == "" {
		t.Skip()
	}
	writeSite(t, demoBook(t), dir)
}

func writeSite(t testing.TB, book *figures.Book, dir string) {
	sheets, err := All(book, Deps{Site: fakeSite{book}})
	require.NoError(t, err)
	for _, s := range sheets {
		d, err := s.Draw()
		require.NoError(t, err, s.Address)
		for _, p := range d.Problems {
			t.Log(p.At, p.Message)
		}
		f := filepath.Join(dir, s.Address)
		require.NoError(t, os.MkdirAll(filepath.Dir(f), 0o755))
		require.NoError(t, os.WriteFile(f, d.HTML, 0o644))
	}
	assets, err := AssetFiles()
	require.NoError(t, err)
	for _, a := range assets {
		b, err := templates.Files.ReadFile(a.File)
		require.NoError(t, err)
		f := filepath.Join(dir, a.Address)
		require.NoError(t, os.MkdirAll(filepath.Dir(f), 0o755))
		require.NoError(t, os.WriteFile(f, b, 0o644))
	}
}
