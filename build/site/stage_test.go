package site

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pages is a small site; its files after the first differ between versions.
func pages(version string) map[string]string {
	page := func(body string) string {
		return `<!DOCTYPE html><html data-records-to="2026-05-01" data-built="2026-06-01"><body>` + body + `</body></html>`
	}
	return map[string]string{
		"style/site.css":   "body { color: black }",
		"index.html":       page(version),
		"rivers/a.html":    page(`<a href="../index.html">` + version + `</a>`),
		"species/b.html":   page(`<a href="../rivers/a.html">` + version + `</a>`),
		"data/guide.json":  `{"version": "` + version + `"}`,
		"notes/first.html": page("the same in each version"),
	}
}

func plan(target string) Plan {
	return Plan{Target: target, Generator: "guidegen test", Name: "Torravay", Edition: "public", Date: "2026-06-01"}
}

func passing(string) error { return nil }

// publish writes the files with several goroutines and swaps.
func publish(p Plan, files map[string]string, step func(string) error, noExchange bool) error {
	s, err := open(p, step, noExchange)
	if err != nil {
		return err
	}
	defer s.Close()
	var all sync.WaitGroup
	errs := make(chan error, len(files))
	for address, text := range files {
		all.Go(func() { errs <- s.Write(address, []byte(text)) })
	}
	all.Wait()
	close(errs)
	for err := range errs {
		if err != nil {
			return err
		}
	}
	return s.Swap()
}

// snapshot reads every file below a folder, and names every folder and link.
func snapshot(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(dir, name)
		if d.IsDir() {
			out[filepath.ToSlash(rel)+"/"] = ""
			return nil
		}
		if d.Type()&fs.ModeSymlink != 0 {
			out[filepath.ToSlash(rel)+"@"], err = os.Readlink(name)
			return err
		}
		data, err := os.ReadFile(name)
		out[filepath.ToSlash(rel)] = string(data)
		return err
	}))
	return out
}

func TestPublishTwice(t *testing.T) {
	for _, noExchange := range []bool{false, true} {
		t.Run(fmt.Sprint("noExchange=", noExchange), func(t *testing.T) {
			dir := t.TempDir()
			target := filepath.Join(dir, "published")
			require.NoError(t, publish(plan(target), pages("one"), passing, noExchange))
			first := snapshot(t, dir)
			require.NoError(t, publish(plan(target), pages("two"), passing, noExchange))
			require.NoError(t, publish(plan(target), pages("one"), passing, noExchange))
			assert.Equal(t, first, snapshot(t, dir), "same input, same bytes, and nothing left beside it")
			for address, text := range pages("one") {
				assert.Equal(t, text, first["published/"+address])
			}
		})
	}
}

func TestManifestListsTheSite(t *testing.T) {
	target := filepath.Join(t.TempDir(), "published")
	require.NoError(t, publish(plan(target), map[string]string{"b.txt": "abc", "a/c.txt": ""}, passing, false))
	m, err := ReadManifest(target)
	require.NoError(t, err)
	assert.Equal(t, Manifest{Format: 1, Generator: "guidegen test", Guide: "Torravay", Edition: "public", Date: "2026-06-01",
		Files: []File{
			// FIPS 180-2, appendix B.1, has the digest of "abc"; that of nothing is from memory.
			{"a/c.txt", 0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
			{"b.txt", 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
		}}, m)
}

func TestSameBytesForAnyNumberOfProcessors(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	var sites []map[string]string
	for _, n := range []int{1, 8} {
		runtime.GOMAXPROCS(n)
		dir := t.TempDir()
		files := pages("one")
		for i := range 100 {
			files[fmt.Sprintf("visits/%d.txt", i)] = strings.Repeat("x", i)
		}
		require.NoError(t, publish(plan(filepath.Join(dir, "published")), files, passing, false))
		sites = append(sites, snapshot(t, dir))
	}
	assert.Equal(t, sites[0], sites[1])
}

func TestUnchangedFilesKeepTheirTimes(t *testing.T) {
	target := filepath.Join(t.TempDir(), "published")
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	then := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	same, changed, edited := filepath.Join(target, "notes/first.html"), filepath.Join(target, "index.html"), filepath.Join(target, "style/site.css")
	// Edited by hand to the same length: the manifest alone would not tell.
	require.NoError(t, os.WriteFile(edited, []byte("body { color: white }"), 0o644))
	for _, name := range []string{same, changed, edited} {
		require.NoError(t, os.Chtimes(name, then, then))
	}
	was, err := os.Stat(same)
	require.NoError(t, err)
	require.NoError(t, publish(plan(target), pages("two"), passing, false))

	info, err := os.Stat(same)
	require.NoError(t, err)
	assert.True(t, info.ModTime().Equal(then))
	assert.True(t, os.SameFile(was, info), "linked, not copied")
	for name, want := range map[string]string{changed: pages("two")["index.html"], edited: pages("two")["style/site.css"]} {
		info, err := os.Stat(name)
		require.NoError(t, err)
		assert.False(t, info.ModTime().Equal(then))
		got, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
	}
}

// A link in the old site must never be followed to a file elsewhere.
func TestLinksInTheOldSiteAreNotCarriedOver(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "published")
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	text := pages("")["style/site.css"]
	link := "../../elsewhere--.css"
	require.Len(t, link, len(text), "a link's size is its length, and must not be what tells")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "elsewhere--.css"), []byte(text), 0o644))
	css := filepath.Join(target, "style/site.css")
	require.NoError(t, os.Remove(css))
	require.NoError(t, os.Symlink(link, css))
	require.NoError(t, publish(plan(target), pages("two"), passing, false))
	info, err := os.Lstat(css)
	require.NoError(t, err)
	assert.True(t, info.Mode().IsRegular())
}

func TestTheFoldersModeIsKept(t *testing.T) {
	target := filepath.Join(t.TempDir(), "published")
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	require.NoError(t, os.Chmod(target, 0o775))
	require.NoError(t, publish(plan(target), pages("two"), passing, false))
	info, err := os.Stat(target)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o775), info.Mode().Perm())
}

func TestBadAddresses(t *testing.T) {
	s, err := Open(plan(filepath.Join(t.TempDir(), "published")))
	require.NoError(t, err)
	defer s.Close()
	for _, address := range []string{"", ".", "../a.html", "/a.html", "a//b.html", `a\b.html`, ManifestName, ManifestName + ".complete"} {
		assert.Error(t, s.Write(address, nil), address)
	}
	assert.Error(t, s.Swap(), "a stage that failed once is never swapped")
}

func TestErrorsNameWholePaths(t *testing.T) {
	target := filepath.Join(t.TempDir(), "published")
	s, err := Open(plan(target))
	require.NoError(t, err)
	defer s.Close()
	require.NoError(t, s.Write("a", nil))
	err = s.Write("a/b.html", nil) // a folder where a file stands
	require.Error(t, err)
	assert.Contains(t, err.Error(), " "+filepath.Join(filepath.Dir(target), ".published.stage", "a"))
}

func TestTheSameAddressTwice(t *testing.T) {
	target := filepath.Join(t.TempDir(), "published")
	s, err := Open(plan(target))
	require.NoError(t, err)
	require.NoError(t, s.Write("a.txt", []byte("1")))
	require.NoError(t, s.Write("A.txt", []byte("2")))
	assert.NoFileExists(t, filepath.Join(filepath.Dir(target), ".published.stage", "A.txt"), "a Mac could not keep them apart")
	var failures Failures
	require.ErrorAs(t, s.Swap(), &failures)
	assert.Equal(t, []Kind{SamePath}, kinds(failures))
	require.NoError(t, s.Close())
	assert.NoDirExists(t, target)
}

func TestVerificationStopsTheSwap(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "published")
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	before := snapshot(t, dir)
	p := plan(target)
	p.Withheld = []string{"two"}
	var failures Failures
	require.ErrorAs(t, publish(p, pages("two"), passing, false), &failures)
	assert.Equal(t, []Kind{Leak, Leak, Leak, Leak}, kinds(failures))
	assert.Equal(t, before, snapshot(t, dir))
}

// Whatever step fails, and in whichever way folders are exchanged, the old site stays byte for
// byte and nothing else is left; or the step came after the swap, and the new site is in place.
func TestEveryStepMayFail(t *testing.T) {
	failed := errors.New("disk full")
	for _, noExchange := range []bool{false, true} {
		dir := t.TempDir()
		target := filepath.Join(dir, "new", "published")
		require.ErrorIs(t, publish(plan(target), pages("one"), func(what string) error {
			return map[bool]error{true: failed}[what == "swap"]
		}, noExchange), failed)
		assert.Equal(t, map[string]string{"./": ""}, snapshot(t, dir), "folders made above the target are removed again")

		target = filepath.Join(dir, "published")
		require.NoError(t, publish(plan(target), pages("one"), passing, noExchange))
		old := snapshot(t, dir)
		for k := 0; ; k++ {
			var mu sync.Mutex
			n, done := 0, ""
			err := publish(plan(target), pages("two"), func(what string) error {
				mu.Lock()
				defer mu.Unlock()
				if n++; n == k+1 {
					done = what
					return failed
				}
				return nil
			}, noExchange)
			if done == "" {
				require.NoError(t, err)
				assert.Greater(t, k, 10, "too few steps were tried")
				break
			}
			if done == "clear" {
				require.NoError(t, err, "the new site was in place")
				require.NoError(t, publish(plan(target), pages("one"), passing, noExchange), "and its leavings are cleared")
			} else {
				require.ErrorIs(t, err, failed, done)
			}
			require.Equal(t, old, snapshot(t, dir), "failed at: %s", done)
		}
	}
}
