//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package site

import (
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// Lock takes the lock file, or says ErrLocked. The system lets go of it when the process dies.
func Lock(name string) (unlock func(), err error) {
	for {
		f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, err
		}
		if err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB); err != nil {
			f.Close()
			if err == unix.EWOULDBLOCK {
				return nil, ErrLocked
			}
			return nil, &os.PathError{Op: "lock", Path: name, Err: err}
		}
		// The run before us may have removed the file between our opening and locking it.
		held, errHeld := f.Stat()
		there, errThere := os.Stat(name)
		if errHeld == nil && errThere == nil && os.SameFile(held, there) {
			return func() { os.Remove(name); f.Close() }, nil
		}
		f.Close()
	}
}

// mounted reports whether something is mounted on a folder.
func mounted(dir string) bool {
	var here, above unix.Stat_t
	return unix.Stat(dir, &here) == nil && unix.Stat(filepath.Dir(dir), &above) == nil && here.Dev != above.Dev
}

// syncDir puts a folder's own entries on the disk.
func syncDir(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync()
		f.Close()
	}
}
