//go:build !linux && !darwin

package site

import "errors"

// syncEach is whether each file is put on the disk as it is written.
const syncEach = true

func exchange(string, string) error { return errors.ErrUnsupported }

func settle(string) error { return nil }
