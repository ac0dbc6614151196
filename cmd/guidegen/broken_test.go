package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/content"
	"guidegen/content/problems"
)

// sums is every file below a folder, by its bytes.
func sums(t *testing.T, dir string) map[string]string {
	t.Helper()
	m := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(p)
		m[p] = string(b)
		return err
	}))
	return m
}

// Every guide that an explanation shows as broken is refused by publish with
// status 1, and the site that stands there stays as it was, byte for byte.
func TestBrokenGuidesWriteNothing(t *testing.T) {
	dir := t.TempDir()
	good, site := filepath.Join(dir, "good"), filepath.Join(dir, "site")
	_, errs, status := call(t, "", "blank", "guide", good)
	require.Equal(t, fine, status, errs)
	_, errs, status = call(t, "", "publish", good, "--out", site, "--date", "2026-12-01")
	require.Equal(t, fine, status, errs)
	before := sums(t, site)
	tried := 0
	for _, id := range problems.IDs() {
		e, _ := explain(id)
		if len(e.files) == 0 || id == "no-guide" {
			continue
		}
		r, at, err := e.shown()
		require.NoError(t, err, id)
		if at < 0 || r.Problems[at].Grade != content.Error {
			continue
		}
		broken := filepath.Join(dir, "broken", id)
		require.NoError(t, os.CopyFS(broken, overlay{starter(), nil}))
		for name, b := range e.files {
			file := filepath.Join(broken, filepath.FromSlash(name))
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, b, 0o644))
		}
		guide := sums(t, broken)
		out, errs, status := call(t, "", "publish", broken, "--out", site, "--date", "2026-12-01")
		assert.Equal(t, faulty, status, id)
		assert.Contains(t, errs, "  ("+id+")\n")
		assert.Contains(t, errs, "; nothing was written\n")
		assert.NotContains(t, out, "wrote")
		assert.Equal(t, guide, sums(t, broken), id)
		tried++
	}
	assert.GreaterOrEqual(t, tried, 40)
	assert.Equal(t, before, sums(t, site))
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	require.NoError(t, err)
	assert.Empty(t, left, "no stage and no lock stays behind")
}

// Visits logged at once are all there afterwards, each whole.
func TestVisitsAtOnce(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "guide")
	_, errs, status := call(t, "", "blank", "guide", dir)
	require.Equal(t, fine, status, errs)
	const people = 8
	var wg sync.WaitGroup
	for i := range people {
		wg.Go(func() {
			_, errs, status := call(t, "", "visit", "Lorrow Brook", "--guide", dir, "--date", fmt.Sprintf("2025-07-%02d", i+1), "--method", "sweep net",
				"--effort", "50 sweeps", "--find", "Large dark olive, dun, male, 2", "--find", "Small yellow sally, adult", "--by", fmt.Sprintf("P. %c", 'A'+i))
			assert.Equal(t, fine, status, errs)
		})
	}
	wg.Wait()
	b, err := os.ReadFile(filepath.Join(dir, "samples", "lorrow-brook-2025.csv"))
	require.NoError(t, err)
	assert.Equal(t, people, bytes.Count(b, []byte("Large dark olive,dun,male,2,")))
	assert.Equal(t, people, strings.Count(string(b), "Small yellow sally,adult"))
	for i := range people {
		assert.Contains(t, string(b), fmt.Sprintf(",2025-07-%02d,", i+1))
	}
	out, errs, status := call(t, "", "proof", dir, "--date", "2026-12-01")
	assert.Equal(t, fine, status, out+errs)
	left, err := filepath.Glob(filepath.Join(dir, "samples", ".*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

// A form with every key in use, as its examples have it, names no key that the
// reader doesn't know and has no value of the wrong shape.
func TestFormsFilledIn(t *testing.T) {
	for _, kind := range []string{"account", "water", "dressing"} {
		text, _, status := call(t, "", "blank", kind, "Filled in", "--out", "-")
		require.Equal(t, fine, status)
		var filled []string
		for line := range strings.Lines(text) {
			if strings.HasPrefix(line, "#") && !strings.HasPrefix(line, "# ") {
				line = line[1:]
			}
			filled = append(filled, line)
		}
		f := forms[kind]
		e := explanation{files: map[string][]byte{f.folder + "/filled-in" + f.ending: []byte(strings.Join(filled, ""))}}
		r, _, err := e.shown()
		require.NoError(t, err)
		assert.Greater(t, len(filled), 20)
		for _, p := range r.Problems {
			assert.NotContains(t, []string{"unknown-key", "wrong-shape", "yaml-syntax", "missing-key", "unknown-choice"}, p.ID, "%s: %s", kind, p.Message)
		}
	}
}

// On a full disk the program fails as its own failure, in one line, and the
// site stays.
func TestAFullDisk(t *testing.T) {
	disk := t.TempDir()
	if err := exec.Command("mount", "-t", "tmpfs", "-o", "size=3m", "tmpfs", disk).Run(); err != nil {
		t.Skip("a small disk can't be mounted here: ", err)
	}
	t.Cleanup(func() { _ = exec.Command("umount", "-l", disk).Run() })
	site := filepath.Join(disk, "site")
	guide := filepath.Join(t.TempDir(), "guide")
	_, errs, status := call(t, "", "blank", "guide", guide)
	require.Equal(t, fine, status, errs)
	_, errs, status = call(t, "", "publish", guide, "--out", site, "--date", "2026-05-03")
	require.Equal(t, fine, status, errs)
	before := sums(t, disk)
	_, errs, status = call(t, "", "publish", "--out", site, "--date", "2026-05-04") // the demo is larger than the disk
	assert.Equal(t, broken, status)
	assert.Contains(t, errs, "no space left on device")
	assert.Equal(t, 1, strings.Count(errs, "\n"), errs)
	assert.Equal(t, before, sums(t, disk))
}
