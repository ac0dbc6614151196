package build

import (
	"bytes"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/calendar"
)

// album is a small guide with one photo for everyone and one for members. The
// first holds the marks of a camera and its owner.
func album(t *testing.T) fstest.MapFS {
	files := fstest.MapFS{}
	for name, text := range map[string]string{
		"guide.yaml":       "format: 1\nname: Album\npublisher: A club\nbasis: memory\n",
		"species/olive.md": "---\nname: Large dark olive\nscientific: Baetis rhodani (Pictet, 1843)\ngroup: upwinged\nflights:\n  spring: {from: mid Feb, peak: late Mar, to: late Apr, abundance: abundant}\n---\n",
		"rivers/beck.yaml": "name: Beck\nkind: rain-fed\nflies:\n  Large dark olive: abundant\n",
		"photos/photos.yaml": "open.jpg: {alt: a dun, credit: A. Lens, permission: {scope: site}, shows: {fly: Large dark olive}}\n" +
			"shut.jpg: {alt: a beck in the evening for members, credit: A. Lens, permission: {scope: site, by: Zacharias Quillfeather}, show: members, shows: {water: Beck}}\n",
	} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	for name, w := range map[string]int{"open": 500, "shut": 800} {
		var b bytes.Buffer
		require.NoError(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, w, 300)), nil))
		marked := slices.Concat(b.Bytes()[:2], []byte("\xff\xe1\x00\x2dExif\x00\x00Owner Nell Harker 55.9712 N Serial 900412"), b.Bytes()[2:])
		files["photos/"+name+".jpg"] = &fstest.MapFile{Data: marked}
	}
	return files
}

func publishAlbum(t *testing.T, files fstest.MapFS, e Edition, out string) *Report {
	t.Helper()
	r, err := Publish(Options{Source: &Source{Files: files}, Edition: e, Date: calendar.Date{Year: 2026, Month: 11, Day: 24}, Out: out})
	require.NoError(t, err)
	return r
}

// Derived pictures alone stand in the site: those of its edition, without the marks of a camera.
func TestPhotosOfASite(t *testing.T) {
	files := album(t)
	for e, want := range map[Edition][]string{Public: {"-360.jpg", "-500.jpg"}, Members: {"-360.jpg", "-360.jpg", "-500.jpg", "-720.jpg", "-800.jpg"}} {
		out := filepath.Join(t.TempDir(), "site")
		require.True(t, publishAlbum(t, files, e, out).Sound())
		entries, err := os.ReadDir(filepath.Join(out, "photos"))
		require.NoError(t, err)
		var got []string
		for _, x := range entries {
			got = append(got, x.Name()[20:])
		}
		slices.Sort(got)
		assert.Equal(t, want, got, e)
		require.NoError(t, filepath.WalkDir(out, func(p string, d os.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			b, err := os.ReadFile(p)
			secrets := []string{"Nell Harker", "55.9712", "900412", "Quillfeather", "open.jpg", "shut.jpg"}
			if e == Public {
				secrets = append(secrets, "a beck in the evening for members")
			}
			for _, s := range secrets {
				assert.False(t, strings.Contains(string(b), s), "%s: %s", p, s)
			}
			return err
		}))
	}
}

// The end of a picture is only seen when the site is drawn. What is cut short
// stops the site, and the old one stays.
func TestPhotoCutShort(t *testing.T) {
	files := album(t)
	out := filepath.Join(t.TempDir(), "site")
	require.True(t, publishAlbum(t, files, Public, out).Sound())
	before, err := os.ReadFile(filepath.Join(out, "index.html"))
	require.NoError(t, err)

	whole := files["photos/open.jpg"].Data
	files["photos/open.jpg"] = &fstest.MapFile{Data: whole[:len(whole)-len(whole)/4]}
	files["guide.yaml"].Data = []byte(strings.Replace(string(files["guide.yaml"].Data), "Album", "Other name", 1))
	r := publishAlbum(t, files, Public, out)
	assert.False(t, r.Sound())
	p := slices.IndexFunc(r.Problems, func(p content.Problem) bool { return p.ID == "photo-broken" })
	require.GreaterOrEqual(t, p, 0)
	assert.Equal(t, "photos/photos.yaml:1:1", r.Collector().Where(r.Problems[p].At))
	assert.Equal(t, 1, r.Count(content.Error), "said once, though several sizes were to be made")
	after, err := os.ReadFile(filepath.Join(out, "index.html"))
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))

	r, err = Proof(Options{Source: &Source{Files: files}, Date: calendar.Date{Year: 2026, Month: 11, Day: 24}})
	require.NoError(t, err)
	assert.Equal(t, 1, r.Count(content.Error))
}

// Two entries may not be of one file, but two files may be one picture.
func TestOnePictureTwice(t *testing.T) {
	files := album(t)
	files["photos/shut.jpg"] = files["photos/open.jpg"]
	out := filepath.Join(t.TempDir(), "site")
	require.True(t, publishAlbum(t, files, Members, out).Sound())
	entries, err := os.ReadDir(filepath.Join(out, "photos"))
	require.NoError(t, err)
	assert.Len(t, entries, 2)
}
