//go:build unix

package main

import "syscall"

// What is written can be read by everybody who may enter its folder, whatever the umask: a web server often runs as
// somebody else.
func init() { syscall.Umask(0o022) }
