package site

import (
	"os"

	"golang.org/x/sys/windows"
)

// Lock takes the lock file, or says ErrLocked. The system lets go of it when the process dies.
func Lock(name string) (unlock func(), err error) {
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	err = windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY,
		0, 1, 0, new(windows.Overlapped))
	if err != nil {
		f.Close()
		if err == windows.ERROR_LOCK_VIOLATION {
			return nil, ErrLocked
		}
		return nil, &os.PathError{Op: "lock", Path: name, Err: err}
	}
	// Removing fails, rightly, while another run has the file open.
	return func() { f.Close(); os.Remove(name) }, nil
}

func mounted(string) bool { return false } // drives are the tops of volumes

func syncDir(string) {}
