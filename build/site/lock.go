package site

import "errors"

// errLocked says that another run holds the lock.
var errLocked = errors.New("locked by another run")
