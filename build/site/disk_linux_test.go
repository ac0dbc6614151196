package site

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// smallDisk mounts a disk of the given size; the test is skipped where that is not allowed.
func smallDisk(t *testing.T, options string) string {
	dir := t.TempDir()
	if err := unix.Mount("tmpfs", dir, "tmpfs", 0, options); err != nil {
		t.Skip("a small disk can't be mounted here: ", err)
	}
	t.Cleanup(func() { _ = unix.Unmount(dir, unix.MNT_DETACH) })
	return dir
}

func TestAFullDisk(t *testing.T) {
	disk := smallDisk(t, "size=256k")
	target := filepath.Join(disk, "published")
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	before := snapshot(t, disk)
	large := pages("two")
	for i := range 10 {
		large[fmt.Sprintf("data/%d.txt", i)] = strings.Repeat("x", 64<<10)
	}
	err := publish(plan(target), large, passing, false)
	require.ErrorIs(t, err, syscall.ENOSPC)
	assert.Contains(t, err.Error(), filepath.Join(disk, ".published.stage")+"/", "the error names the file")
	assert.Equal(t, before, snapshot(t, disk))
	require.NoError(t, publish(plan(target), pages("two"), passing, false), "once there is room again")
}

// Where a file can't be linked, here since another disk is mounted within the old site, it is
// copied with its time.
func TestUnchangedFilesAreCopiedWithTheirTimes(t *testing.T) {
	target := filepath.Join(t.TempDir(), "published")
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	style := filepath.Join(target, "style")
	if err := unix.Mount("tmpfs", style, "tmpfs", 0, "size=64k"); err != nil {
		t.Skip("a small disk can't be mounted here: ", err)
	}
	t.Cleanup(func() { _ = unix.Unmount(style, unix.MNT_DETACH) })
	text, then := pages("one")["style/site.css"], time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	require.NoError(t, os.WriteFile(filepath.Join(style, "site.css"), []byte(text), 0o644))
	require.NoError(t, os.Chtimes(filepath.Join(style, "site.css"), then, then))
	s, err := Open(plan(target))
	require.NoError(t, err)
	require.NoError(t, s.Write("style/site.css", []byte(text)))
	info, err := os.Stat(filepath.Join(filepath.Dir(target), ".published.stage/style/site.css"))
	require.NoError(t, err)
	assert.True(t, info.ModTime().Equal(then))
	require.NoError(t, s.Close())
}

func TestAMountPointIsRefused(t *testing.T) {
	disk := smallDisk(t, "size=256k")
	_, err := Open(plan(disk))
	var refusal *Refusal
	require.ErrorAs(t, err, &refusal)
	assert.Contains(t, err.Error(), "such as "+filepath.Join(disk, "published"))
	assert.Empty(t, names(t, disk))
}

// A folder mounted on itself has the same device number as the one above it, so only the swap tells.
func TestAFolderMountedOnItself(t *testing.T) {
	for _, noExchange := range []bool{false, true} {
		dir := filepath.Join(t.TempDir(), "published")
		require.NoError(t, publish(plan(dir), pages("one"), passing, false))
		if err := unix.Mount(dir, dir, "", unix.MS_BIND, ""); err != nil {
			t.Skip("a folder can't be mounted here: ", err)
		}
		t.Cleanup(func() { _ = unix.Unmount(dir, unix.MNT_DETACH) })
		before := snapshot(t, filepath.Dir(dir))
		err := publish(plan(dir), pages("two"), passing, noExchange)
		var refusal *Refusal
		require.ErrorAs(t, err, &refusal)
		assert.Contains(t, err.Error(), "can't be swapped")
		assert.Equal(t, before, snapshot(t, filepath.Dir(dir)))
	}
}

func TestADiskThatCantBeWritten(t *testing.T) {
	disk := smallDisk(t, "size=256k")
	target := filepath.Join(disk, "published")
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	before := snapshot(t, disk)
	require.NoError(t, unix.Mount("", disk, "", unix.MS_REMOUNT|unix.MS_RDONLY, ""))
	err := publish(plan(target), pages("two"), passing, false)
	require.ErrorIs(t, err, syscall.EROFS)
	assert.Contains(t, err.Error(), disk)
	assert.Equal(t, before, snapshot(t, disk))
}

func TestAFolderThatMayNotBeWritten(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("nothing is forbidden to root")
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o555))
	t.Cleanup(func() { _ = os.Chmod(dir, 0o755) })
	_, err := Open(plan(filepath.Join(dir, "published")))
	require.ErrorIs(t, err, os.ErrPermission)
	assert.Contains(t, err.Error(), dir)
}
