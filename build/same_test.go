package build

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/trial"
	"guidegen/content/calendar"
)

// A site that stands and was made from the same is left as it is; one made from other, by another date, or
// of which a file was lost or altered, is written anew.
func TestWhatStandsIsLeft(t *testing.T) {
	t.Parallel()
	out := filepath.Join(t.TempDir(), "site")
	files := trial.TwoFlights()
	o := Options{Source: &Source{Files: files}, Date: calendar.Date{Year: 2026, Month: 6, Day: 10}, Out: out}
	publish := func() (*Report, os.FileInfo) {
		t.Helper()
		r, err := Publish(o)
		require.NoError(t, err)
		require.True(t, r.Sound(), r.Problems)
		at, err := os.Stat(out)
		require.NoError(t, err)
		return r, at
	}
	first, at := publish()
	again, same := publish()
	assert.True(t, os.SameFile(at, same), "drawn again")
	assert.Equal(t, []int{first.Pages, first.Files, 0, 0}, []int{again.Pages, again.Files, again.Changed, again.Gone})
	assert.Equal(t, first.Problems, again.Problems)
	assert.True(t, again.Anew)
	assert.Equal(t, out, again.Out)

	index := filepath.Join(out, "index.html")
	whole, err := os.ReadFile(index)
	require.NoError(t, err)
	for _, c := range []struct {
		what  string
		alter func()
	}{
		{"a file altered", func() { require.NoError(t, os.WriteFile(index, []byte("x"), 0o644)) }},
		{"a file lost", func() { require.NoError(t, os.Remove(index)) }},
		{"another date", func() { o.Date.Day++ }},
		{"a preview", func() { o.Preview = true }},
		{"another note", func() { files["notes/more.md"] = trial.File("---\ntitle: More\n---\nMore.\n") }},
		{"a note gone", func() { delete(files, "notes/more.md") }},
	} {
		_, at := publish()
		c.alter()
		_, now := publish()
		assert.False(t, os.SameFile(at, now), c.what)
		_, same := publish()
		assert.True(t, os.SameFile(now, same), "%s: and then left", c.what)
	}
	assert.FileExists(t, index)
	assert.Greater(t, len(whole), 1)
}

// What drawing finds is told each time, and so drawn each time.
func TestWhatDrawingFindsIsToldAgain(t *testing.T) {
	t.Parallel()
	files := trial.TwoFlights()
	files["notes/more.md"] = trial.File("---\ntitle: More\n---\n# More\n\n![a fly](nowhere.png)\n")
	o := Options{Source: &Source{Files: files}, Date: calendar.Date{Year: 2026, Month: 6, Day: 10}, Out: filepath.Join(t.TempDir(), "site")}
	first, err := Publish(o)
	require.NoError(t, err)
	require.Contains(t, ids(first), "picture-in-text")
	again, err := Publish(o)
	require.NoError(t, err)
	assert.Equal(t, ids(first), ids(again))
}

func ids(r *Report) (out []string) {
	for _, p := range r.Problems {
		out = append(out, p.ID)
	}
	return out
}
