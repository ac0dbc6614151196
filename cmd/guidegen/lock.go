package main

// A lock on one sheet, so that two people on one disk don't overwrite each
// other's visit. It is a file that only one can make; it is held for the moment
// of a write, so one that is older was left by a run that died.

import (
	"errors"
	"io/fs"
	"os"
	"time"

	"guidegen/build"
)

const (
	lockWait  = 10 * time.Second // for another's write
	lockStale = time.Minute      // longer than any write takes
)

func lock(name string) (unlock func(), err error) {
	for waited := time.Duration(0); ; waited += 20 * time.Millisecond {
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err == nil {
			f.Close()
			return func() { os.Remove(name) }, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return nil, err
		}
		if info, err := os.Stat(name); err == nil && time.Since(info.ModTime()) > lockStale {
			os.Remove(name)
			continue
		}
		if waited > lockWait {
			return nil, build.Misused("somebody else is writing to this sheet; try again, or remove %s", name)
		}
		time.Sleep(20 * time.Millisecond)
	}
}
