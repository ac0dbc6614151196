package main

// A lock on one sheet, so that two people on one disk don't overwrite each
// other's visit. It is held for the moment of a write, and the system lets go of
// it when the process ends, however it ends.

import (
	"errors"
	"time"

	"guidegen/build"
	"guidegen/build/site"
)

const lockWait = 10 * time.Second // longer than any write takes

func lock(name string) (unlock func(), err error) {
	for waited := time.Duration(0); ; waited += 20 * time.Millisecond {
		unlock, err := site.Lock(name)
		if !errors.Is(err, site.ErrLocked) {
			return unlock, err
		}
		if waited > lockWait {
			return nil, build.Misused("another guidegen is writing to this sheet and doesn't end; end it, and log the visit again")
		}
		time.Sleep(20 * time.Millisecond)
	}
}
