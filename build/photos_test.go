package build

import (
	"bytes"
	"crypto/sha256"
	"fmt"
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

	"guidegen/build/guide"
	"guidegen/build/site"
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

// An unchanged picture is taken over from the site as it was, not made again: here a mark put into the old
// one, and into the list of the site's files, tells. What was touched since, or written by another version, is
// made anew.
func TestUnchangedPicturesAreTakenOver(t *testing.T) {
	files := album(t)
	out := filepath.Join(t.TempDir(), "site")
	require.True(t, publishAlbum(t, files, Public, out).Sound())
	names, err := filepath.Glob(filepath.Join(out, "photos", "*-360.jpg"))
	require.NoError(t, err)
	require.Len(t, names, 1)
	made, err := os.ReadFile(names[0])
	require.NoError(t, err)
	marked := append(bytes.Clone(made), "mark"...)
	manifest := filepath.Join(out, site.ManifestName)
	list, err := os.ReadFile(manifest)
	require.NoError(t, err)
	sum := func(b []byte) string { return fmt.Sprintf("%x", sha256.Sum256(b)) }
	for _, c := range []struct {
		name, list string
		want       []byte
	}{
		{"as listed", strings.Replace(string(list), sum(made), sum(marked), 1), marked},
		{"touched since", string(list), made},
		{"of another version", strings.Replace(strings.Replace(string(list), sum(made), sum(marked), 1), Generator+" "+Version, Generator+" 0.0.1", 1), made},
		{"without a list", "", made},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.NoError(t, os.Remove(names[0])) // it may be one with that of an older site
			require.NoError(t, os.WriteFile(names[0], marked, 0o644))
			require.NoError(t, os.Remove(manifest))
			if c.list != "" {
				require.NoError(t, os.WriteFile(manifest, []byte(c.list), 0o644))
			}
			var p []byte
			for _, f := range photos(albumEdition(t, files), files, standing(os.DirFS(out))) {
				if strings.HasSuffix(f.address, "-360.jpg") {
					d, err := f.draw()
					require.NoError(t, err)
					p = d.HTML
				}
			}
			assert.Equal(t, c.want, p)
		})
	}
}

func albumEdition(t *testing.T, files fstest.MapFS) *guide.Edition {
	t.Helper()
	var ps content.Problems
	g, err := guide.Read(files, calendar.Date{Year: 2026, Month: 11, Day: 24}, &ps)
	require.NoError(t, err)
	return guide.Cut(g, false)
}

// Colours other than those of sRGB are told to the editor.
func TestOtherColours(t *testing.T) {
	files := album(t)
	icc := make([]byte, 132)
	copy(icc[16:], "CMYK")
	copy(icc[36:], "acsp")
	b := files["photos/open.jpg"].Data
	segment := slices.Concat([]byte("\xff\xe2\x00\x94ICC_PROFILE\x00\x01\x01"), icc)
	files["photos/open.jpg"] = &fstest.MapFile{Data: slices.Concat(b[:2], segment, b[2:])}
	r := publishAlbum(t, files, Public, filepath.Join(t.TempDir(), "site"))
	require.True(t, r.Sound())
	i := slices.IndexFunc(r.Problems, func(p content.Problem) bool { return p.ID == "photo-colours" })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, content.Note, r.Problems[i].Grade)
	assert.Contains(t, r.Problems[i].Message, `"without a name"`)
}
