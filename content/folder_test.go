package content

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNamesOnWindows(t *testing.T) {
	for name, want := range map[string]bool{"aux.md": true, "AUX.yaml": true, "nul": true, "com1.csv": true, "lpt¹.md": true, "con": true,
		"auxiliary.md": false, "com10.md": false, "contact.md": false, "a.con.md": false, "a:b.md": true, "what?.md": true, "end.": true, "end ": true, "plain name.md": false} {
		assert.Equal(t, want, notOnWindows(name) != "", name)
	}
}

func TestFolderLists(t *testing.T) {
	dir := fstest.MapFS{}
	for _, p := range []string{"guide.yaml", "species/b.md", "species/a.md", "species/.a.md.swp", "species/a.md~", "species/c.markdown", "species/deep/d.md",
		"rivers/x.yml", "samples/x.csv", "samples/y.CSV", "samples/readme.txt", "samples/z.xls", "photos/photos.yaml", "photos/2026/x.jpg", ".git/config", "Thumbs.db",
		"specis/x.md", "hook.csv", "sources.yml", "README.md", "published/index.html", "photos/Thumbs.db"} {
		dir[p] = &fstest.MapFile{Data: []byte("x")}
	}
	ps := &Problems{}
	l, err := Folder{dir}.List(ps)
	require.NoError(t, err)
	assert.Equal(t, Listing{GuideFile: {"guide.yaml"}, SpeciesFile: {"species/a.md", "species/b.md"}, SampleFile: {"samples/x.csv"},
		PhotosFile: {"photos/photos.yaml"}, PhotoFile: {"photos/2026/x.jpg"}, NoFile: {"rivers/x.yml", "samples/y.CSV", "samples/z.xls", "species/c.markdown"}}, l)
	var got []string
	for _, p := range ps.All() {
		got = append(got, p.Grade.String()+" "+p.At.File+" "+p.Want)
	}
	assert.Equal(t, []string{
		"note hook.csv files: acknowledged.yaml, characters.yaml, corrections.yaml, guide.yaml, hooks.csv, photos/photos.yaml, sources.yaml",
		"warning rivers/x.yml rename it rivers/x.yaml",
		"note samples/readme.txt files of samples/ end in .csv",
		"warning samples/y.CSV rename it samples/y.csv",
		"warning samples/z.xls save it from the spreadsheet as a workbook (.xlsx), or as CSV UTF-8",
		"warning sources.yml rename it sources.yaml",
		"warning species/c.markdown rename it species/c.md",
		"note species/deep move its files up into species/",
		"note specis folders: dressings, notes, photos, rivers, samples, species, temperature, words",
	}, got)
	assert.Contains(t, ps.All()[8].Message, `did you mean "species"?`)
}

func TestFolderWithoutAGuide(t *testing.T) {
	ps := &Problems{}
	_, err := Folder{fstest.MapFS{"guide.yml": {}}}.List(ps)
	require.NoError(t, err)
	assert.Equal(t, []string{"no-guide", "wrong-extension"}, []string{ps.All()[0].ID, ps.All()[1].ID})
}

func TestLinksOutOfTheFolder(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(t.TempDir(), "out.md")
	require.NoError(t, os.WriteFile(out, []byte("secret"), 0o644))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "species"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "species", "a.md"), nil, 0o644))
	if err := os.Symlink(out, filepath.Join(dir, "species", "out.md")); err != nil {
		t.Skip("this system has no links: ", err)
	}
	require.NoError(t, os.Symlink("a.md", filepath.Join(dir, "species", "in.md")))
	require.NoError(t, os.Symlink("gone.md", filepath.Join(dir, "species", "gone.md")))
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	ps := &Problems{}
	l, err := Folder{root.FS()}.List(ps)
	require.NoError(t, err)
	assert.Equal(t, []string{"species/a.md", "species/in.md"}, l[SpeciesFile])
	var got []string
	for _, p := range ps.All() {
		got = append(got, p.ID+" "+p.At.File)
	}
	assert.Equal(t, []string{"no-guide ", "bad-link species/gone.md", "bad-link species/out.md"}, got)
}

func TestTooLargeAFile(t *testing.T) {
	ps := &Problems{}
	f, err := Folder{fstest.MapFS{"rivers/x.yaml": {Data: make([]byte, maxBytes+1)}}}.Read("rivers/x.yaml", ps)
	require.NoError(t, err)
	assert.Nil(t, f, "so that nothing else is said of it")
	assert.Equal(t, "file-too-large", ps.All()[0].ID)
	_, err = Folder{fstest.MapFS{}}.Read("rivers/x.yaml", ps)
	assert.True(t, errors.Is(err, fs.ErrNotExist), "what the disk refuses is our failure, not the guide's")
}
