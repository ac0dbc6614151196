package site

import "errors"

// ErrLocked says that another run holds the lock.
var ErrLocked = errors.New("locked by another run")
