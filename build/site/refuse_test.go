package site

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func write(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		setUp  func(t *testing.T, dir string)
		target string
		why    string // "" = accepted
	}{
		"nothing there":          {func(*testing.T, string) {}, "published", ""},
		"an empty folder":        {func(t *testing.T, dir string) { require.NoError(t, os.Mkdir(filepath.Join(dir, "e"), 0o755)) }, "e", ""},
		"folders missing above":  {func(*testing.T, string) {}, "x/y/published", ""},
		"a file":                 {func(t *testing.T, dir string) { write(t, filepath.Join(dir, "f"), "x") }, "f", "a file"},
		"a stranger's folder":    {func(t *testing.T, dir string) { write(t, filepath.Join(dir, "s/holiday.jpg"), "x") }, "s", "no .guidegen"},
		"a folder of another's":  {func(t *testing.T, dir string) { write(t, filepath.Join(dir, "s/.guidegen"), "[]") }, "s", "not a manifest"},
		"the guide":              {func(*testing.T, string) {}, "guide", "holds the guide"},
		"above the guide":        {func(*testing.T, string) {}, ".", "holds the guide"},
		"in the guide":           {func(*testing.T, string) {}, "guide/site", "inside the guide"},
		"deep in the guide":      {func(*testing.T, string) {}, "guide/species/published", "inside the guide"},
		"the guide's own folder": {func(*testing.T, string) {}, "guide/published", ""},
		"the guide by a link": {func(t *testing.T, dir string) { require.NoError(t, os.Symlink("guide", filepath.Join(dir, "l"))) },
			"l", "holds the guide"},
		"in the guide by a link": {func(t *testing.T, dir string) {
			require.NoError(t, os.Symlink("guide/species", filepath.Join(dir, "l")))
		}, "l/site", "inside the guide"},
		"a dangling link": {func(t *testing.T, dir string) { require.NoError(t, os.Symlink("none", filepath.Join(dir, "l"))) },
			"l", "does not exist"},
		"a link to an empty folder": {func(t *testing.T, dir string) {
			require.NoError(t, os.Mkdir(filepath.Join(dir, "e"), 0o755))
			require.NoError(t, os.Symlink("e", filepath.Join(dir, "l")))
		}, "l", ""},
		"the stage's name taken": {func(t *testing.T, dir string) { write(t, filepath.Join(dir, ".published.stage/x"), "x") }, "published", "in the way"},
		"a file added to a site": {func(t *testing.T, dir string) {
			require.NoError(t, publish(plan(filepath.Join(dir, "p")), pages("one"), passing, false))
			write(t, filepath.Join(dir, "p/CNAME"), "x")
			write(t, filepath.Join(dir, "p/rivers/mine/a.txt"), "x")
		}, "p", "(CNAME, rivers/mine)"},
		"in another site": {func(t *testing.T, dir string) {
			require.NoError(t, publish(plan(filepath.Join(dir, "p")), pages("one"), passing, false))
		}, "p/rivers/s", "inside the site"},
		"left by file managers": {func(t *testing.T, dir string) {
			require.NoError(t, publish(plan(filepath.Join(dir, "p")), pages("one"), passing, false))
			write(t, filepath.Join(dir, "p/.DS_Store"), "x")
			write(t, filepath.Join(dir, "p/rivers/Thumbs.db"), "x")
		}, "p", ""},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			write(t, filepath.Join(dir, "guide/guide.yaml"), "format: 1")
			write(t, filepath.Join(dir, "guide/species/a.md"), "a")
			c.setUp(t, dir)
			before := snapshot(t, dir)
			p := plan(filepath.Join(dir, c.target))
			p.Guide, p.Own = filepath.Join(dir, "guide"), []string{"published", "published-members"}
			err := publish(p, pages("two"), passing, false)
			if c.why == "" {
				require.NoError(t, err)
				got, err := os.ReadFile(filepath.Join(dir, c.target, "index.html"))
				require.NoError(t, err)
				assert.Equal(t, pages("two")["index.html"], string(got))
				return
			}
			var refusal *Refusal
			require.ErrorAs(t, err, &refusal)
			assert.Contains(t, err.Error(), c.why)
			assert.Equal(t, before, snapshot(t, dir))
		})
	}
}

func TestRefusesTheTopOfAVolume(t *testing.T) {
	_, err := Open(plan(string(filepath.Separator)))
	assert.ErrorContains(t, err, "give a folder on it")
}

func TestOneRunAtATime(t *testing.T) {
	dir := t.TempDir()
	p := plan(filepath.Join(dir, "published"))
	first, err := Open(p)
	require.NoError(t, err)
	require.NoError(t, first.Write("a.txt", []byte("1")))
	_, err = Open(p)
	require.ErrorContains(t, err, "another run")
	require.NoError(t, first.Swap(), "the second run left the first alone")
	require.NoError(t, first.Close())
	require.NoError(t, publish(p, pages("one"), passing, false))
}

func TestARelativeTarget(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, publish(plan("published"), pages("one"), passing, false))
	require.NoError(t, publish(plan("published/"), pages("two"), passing, false))
	assert.FileExists(t, "published/index.html")
}
