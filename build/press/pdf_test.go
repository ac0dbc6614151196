package press

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content/calendar"
)

// A small file in the form that Chromium writes; ISO 32000-1 is where the keys are from.
const small = `%PDF-1.4
1 0 obj
<</CreationDate (D:20261125010203+02'00')
/ModDate (D:20261125010203+02'00')>>
endobj
2 0 obj
<</Type /Page
/Parent 9 0 R
/MediaBox [0 0 420 594.95996]>>
endobj
3 0 obj
<<>> stream
/Type /Page /MediaBox [0 0 1 1] not a page
endstream
endobj
4 0 obj
<</Type /Page
/Parent 9 0 R
/MediaBox [0 0 420 594.95996]>>
endobj
8 0 obj
<</w-1 [4 0 R /XYZ 0 594 0]
/b#2dread [2 0 R /XYZ 0 594 0]>>
endobj
9 0 obj
<</Type /Pages
/Count 2
/Kids [2 0 R 4 0 R]>>
endobj
10 0 obj
<</Names [(node00000031) 4 0 R (node00000007) 2 0 R (node00000031) 4 0 R]>>
endobj
11 0 obj
<</Type /Catalog
/Pages 9 0 R
/Dests 8 0 R>>
endobj
`

func TestReadingAPDF(t *testing.T) {
	assert.Equal(t, 2, Pages([]byte(small)))
	wide, high := Size([]byte(small))
	assert.InDelta(t, 148, wide, 0.3) // A5, ISO 216
	assert.InDelta(t, 210, high, 0.3)
	assert.Equal(t, map[string]int{"w-1": 2, "b-read": 1}, Destinations([]byte(small)))
	assert.Zero(t, Pages(nil))
	assert.Empty(t, Destinations([]byte("%PDF-1.4")))
}

func TestNothingOfTheMomentStays(t *testing.T) {
	day := calendar.Date{Year: 2026, Month: 5, Day: 3}
	out := string(numbered(dated([]byte(small), day)))
	assert.Len(t, out, len(small), "the offsets have to hold")
	assert.Contains(t, out, "/CreationDate (D:20260503000000+00'00')")
	assert.Contains(t, out, "/ModDate (D:20260503000000+00'00')")
	assert.Contains(t, out, "[(node00000002) 4 0 R (node00000001) 2 0 R (node00000002) 4 0 R]")
}

func TestPrintingAPage(t *testing.T) {
	b := Browser()
	if b == "" && os.Getenv("CI") != "" {
		t.Fatal("CI is set and no Chromium, Chrome or Edge was found")
	}
	if b == "" {
		t.Skip("no Chromium, Chrome or Edge on this machine: nothing is printed")
	}
	dir := t.TempDir()
	// Three pages and a back page: four, so none is added; then one fewer, so one is.
	const head, page, tail = `<!DOCTYPE html><html lang="en"><title>t</title><style>@page{size:A5;margin:0}section{break-before:page}</style><ul><li><a href="#b">b</a> <span class="pg" data-for="b"></span></li></ul>`,
		`<section>page</section>`, `<section id="b"><a href="beside.html">beside</a></section><section class="notes-page"><h2 id="n">notes</h2></section><section class="back-page">back</section>`
	for name, html := range map[string]string{"four page.html": head + page + tail, "three#page.html": head + tail, "six.html": head + page + page + page + tail} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(html), 0o644))
	}
	p, err := Open(b, dir, calendar.Date{Year: 2026, Month: 5, Day: 3})
	require.NoError(t, err)
	defer p.Close()
	for name, want := range map[string]int{"four page.html": 4, "three#page.html": 4, "six.html": 8} {
		pdf, err := p.Print(Job{name, true})
		require.NoError(t, err, name)
		assert.Equal(t, want, Pages(pdf), name)
		assert.NotContains(t, string(pdf), "file:", name)
		again, err := p.Print(Job{name, true})
		require.NoError(t, err)
		assert.True(t, string(pdf) == string(again), name)
	}
	_, err = p.Print(Job{"missing.html", true})
	assert.ErrorContains(t, err, "missing.html")
	_, err = Open("", dir, calendar.Date{})
	assert.ErrorIs(t, err, ErrNoBrowser)
	_, err = Open(filepath.Join(dir, "nothing"), dir, calendar.Date{})
	assert.Error(t, err)
}
