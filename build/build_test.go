package build

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build/guide"
	"guidegen/build/view"
	"guidegen/content"
	"guidegen/content/calendar"
	"guidegen/rivers"
	"guidegen/species"
)

// A run that is ended before it is done writes nothing and leaves nothing behind.
func TestStopped(t *testing.T) {
	dir := t.TempDir()
	src, err := Find("", dir)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	stop()
	_, err = Publish(Options{Source: src, Date: calendar.Date{Year: 2026, Month: 11, Day: 20}, Out: filepath.Join(dir, "site"), Stop: ctx})
	require.ErrorIs(t, err, context.Canceled)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range left {
		assert.Equal(t, ".site.lock", e.Name())
	}
}

func TestFindChoosesAGuide(t *testing.T) {
	empty, here, other := t.TempDir(), t.TempDir(), t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(here, "guide.yaml"), nil, 0o644))
	for _, c := range []struct {
		name, here string
		how        How
		dir        string
	}{
		{"", empty, Demo, ""},
		{"", here, Here, here},
		{other, here, Named, other},
	} {
		s, err := Find(c.name, c.here)
		require.NoError(t, err)
		assert.Equal(t, c.how, s.How)
		assert.Equal(t, c.dir, s.Dir)
		assert.NotNil(t, s.Files)
		assert.NoError(t, s.Close())
	}
	var wrong *Misuse
	_, err := Find(filepath.Join(empty, "nowhere"), here)
	assert.ErrorAs(t, err, &wrong)
	_, err = Find(filepath.Join(here, "guide.yaml"), here)
	assert.ErrorAs(t, err, &wrong)
}

// The page for a missing address leads on from the host's root, which the verification of the site allows
// it alone, and no search engine is told of it.
func TestThePageForAMissingAddressOnItsHost(t *testing.T) {
	files := album(t)
	files["guide.yaml"] = &fstest.MapFile{Data: []byte(string(files["guide.yaml"].Data) + "address: https://club.example/our/flies/\n")}
	out := filepath.Join(t.TempDir(), "site")
	require.True(t, publishAlbum(t, files, Public, out).Sound())
	html, err := os.ReadFile(filepath.Join(out, view.NotFoundPage))
	require.NoError(t, err)
	assert.Contains(t, string(html), `href="/our/flies/rivers/beck.html"`)
	sitemap, err := os.ReadFile(filepath.Join(out, "sitemap.xml"))
	require.NoError(t, err)
	assert.Contains(t, string(sitemap), "<loc>https://club.example/our/flies/rivers/beck.html</loc>")
	assert.NotContains(t, string(sitemap), view.NotFoundPage)
}

// A link in the guide can't show a file from elsewhere.
func TestAGuideIsReadFromItsOwnFolderAlone(t *testing.T) {
	dir, elsewhere := t.TempDir(), filepath.Join(t.TempDir(), "secret.md")
	require.NoError(t, os.WriteFile(elsewhere, []byte("---\nname: Secret fly\ngroup: midge\n---\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "guide.yaml"), []byte("format: 1\nname: A\npublisher: B\nlicence: CC0\n"), 0o644))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "species"), 0o755))
	if err := os.Symlink(elsewhere, filepath.Join(dir, "species", "secret.md")); err != nil {
		t.Skip("no links here: ", err)
	}
	s, err := Find(dir, ".")
	require.NoError(t, err)
	defer s.Close()
	r, err := Proof(Options{Source: s, Date: calendar.Date{Year: 2026, Month: 5, Day: 3}})
	require.NoError(t, err)
	assert.False(t, r.Sound())
	assert.Equal(t, "bad-link", r.Problems[len(r.Problems)-1].ID)
}

func TestAddresses(t *testing.T) {
	ps := &content.Problems{}
	text := func(s string) content.Text { return content.Text{S: s} }
	e := &guide.Edition{Guide: &guide.Guide{
		Accounts:  []*species.Account{{Address: "iron-blue", File: "species/Iron Blue.md", Was: []content.Text{text("dark-watchet")}}},
		Waters:    []*rivers.Water{{Address: "thessel", File: "rivers/thessel.yaml"}},
		Dressings: []*species.Dressing{{Address: "one", File: "dressings/box.yaml"}, {Address: "two", File: "dressings/box.yaml"}, {Address: "alone", File: "dressings/alone.yaml"}},
	}}
	a := allocate(e, ps)
	assert.Empty(t, ps.All())
	for file, want := range map[string]string{"species/Iron Blue.md": "species/iron-blue.html", "rivers/thessel.yaml": "rivers/thessel.html", "dressings/alone.yaml": "dressings/alone.html"} {
		got, ok := a.Page(file)
		assert.True(t, ok)
		assert.Equal(t, want, got)
	}
	_, ok := a.Page("dressings/box.yaml")
	assert.False(t, ok, "a box isn't a page")
	require.Len(t, a.redirects, 1)
	assert.Equal(t, "species/dark-watchet.html", a.redirects[0].Old)
	assert.Equal(t, "../rivers/thessel.html", a.Link("species/iron-blue.html", "rivers/thessel.html"))
}

func TestDrawingStopsAtNothing(t *testing.T) {
	good := func(address string) file { return plain(address, false, func() []byte { return []byte(address) }) }
	files := []file{good("a"), {address: "b", draw: func() (view.Drawn, error) { panic("a slip") }}, good("c"),
		{address: "d", draw: func() (view.Drawn, error) { return view.Drawn{}, errors.New("no template") }}, good("e")}
	var mu sync.Mutex
	var written []string
	err := drawAll(files, func(address string, _ []byte) error {
		mu.Lock()
		defer mu.Unlock()
		written = append(written, address)
		return nil
	}, &content.Problems{})
	require.EqualError(t, err, "b: a fault of the program, not of the guide: a slip")
	assert.ElementsMatch(t, []string{"a", "c", "e"}, written)
}

// Whichever write fails, the first of them by the files' order is named.
func TestAWriteThatFails(t *testing.T) {
	var files []file
	for i := range 20 {
		files = append(files, plain(fmt.Sprintf("%02d", i), false, func() []byte { return nil }))
	}
	full := errors.New("disk full")
	for k := range files {
		err := drawAll(files, func(address string, _ []byte) error {
			if address >= files[k].address {
				return full
			}
			return nil
		}, &content.Problems{})
		require.ErrorIs(t, err, full)
		assert.EqualError(t, err, files[k].address+": disk full")
	}
}

// A folder without a guide leaves no trace of a site.
func TestAGuideThatIsEmpty(t *testing.T) {
	out := filepath.Join(t.TempDir(), "site")
	r, err := Publish(Options{Source: &Source{Files: fstest.MapFS{}}, Out: out, Date: calendar.Date{Year: 2026, Month: 5, Day: 3}})
	require.NoError(t, err)
	assert.False(t, r.Sound())
	assert.Empty(t, r.Out)
	assert.NoDirExists(t, out)
}

// A name that is a word of every site can't be looked for; any other is.
func TestWhatCanBeLookedFor(t *testing.T) {
	assert.Equal(t, []string{"Ottilie Varnsby", "the osier bed"}, searchable([]string{"June", "Ottilie Varnsby", "the osier bed", "Records"}))
	assert.Empty(t, searchable(nil))
}
