package draw_test

import (
	"io/fs"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"guidegen/build/draw"
	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/lang"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/content/demo"
)

var built = calendar.Date{Year: 2026, Month: 11, Day: 20}

func bookOf(files fs.FS) (*figures.Book, string) {
	var ps content.Problems
	g, err := guide.Read(files, built, &ps)
	if err != nil {
		return nil, err.Error()
	}
	var b strings.Builder
	for _, p := range ps.All() {
		if p.Grade == content.Error {
			ps.Print(&b, p)
		}
	}
	if b.Len() > 0 {
		return nil, b.String()
	}
	return figures.Reckon(guide.Cut(g, false), built), ""
}

var demoBook = sync.OnceValues(func() (*figures.Book, string) { return bookOf(demo.FS) })

func albumOf(t testing.TB, book *figures.Book) *draw.Album {
	t.Helper()
	words, err := lang.LoadWords("en")
	require.NoError(t, err)
	a, err := draw.New(book, words)
	require.NoError(t, err)
	return a
}

func demoAlbum(t testing.TB) (*figures.Book, *draw.Album) {
	t.Helper()
	book, problem := demoBook()
	require.Empty(t, problem)
	return book, albumOf(t, book)
}

func BenchmarkAlbum(b *testing.B) {
	book, _ := demoAlbum(b)
	for b.Loop() {
		albumOf(b, book)
	}
}
