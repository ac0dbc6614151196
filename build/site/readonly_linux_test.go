package site

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// A site kept read-only against slips of the hand doesn't stop the next run from clearing it away.
func TestAReadOnlySiteIsCleared(t *testing.T) {
	dir := t.TempDir()
	stage := filepath.Join(dir, ".site.stage")
	require.NoError(t, os.MkdirAll(filepath.Join(stage, "data", "rivers"), 0o755))
	for _, name := range []string{ManifestName, "index.html", "data/rivers/a.json"} {
		require.NoError(t, os.WriteFile(filepath.Join(stage, name), nil, 0o444))
	}
	for _, name := range []string{"data/rivers", "data", "."} {
		require.NoError(t, os.Chmod(filepath.Join(stage, name), 0o555))
	}
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	if os.Geteuid() == 0 { // whom no permission stops: become somebody else, on this thread alone
		const nobody = 65534
		require.NoError(t, filepath.WalkDir(dir, func(p string, _ fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			return os.Chown(p, nobody, nobody)
		}))
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		_, err := unix.SetfsuidRetUid(nobody)
		require.NoError(t, err)
		defer unix.SetfsuidRetUid(0)
	}
	require.ErrorIs(t, root.RemoveAll(".site.stage"), fs.ErrPermission, "else this tests nothing")
	require.NoError(t, (&Stage{root: root, step: passing}).clear(".site.stage"))
	_, err = root.Lstat(".site.stage")
	require.ErrorIs(t, err, fs.ErrNotExist)
}
