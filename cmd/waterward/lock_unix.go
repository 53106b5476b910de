//go:build unix

package main

import (
	"errors"
	"os"
	"syscall"
)

// openLocked opens a file that no other process has locked, and locks it until it is closed.
func openLocked(name string) (*os.File, error) {
	file, err := os.OpenFile(name, os.O_CREATE|os.O_RDWR, 0o666)
	if err != nil {
		return nil, err
	}
	if err = syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err == nil {
		return file, nil
	}
	file.Close()
	if errors.Is(err, syscall.EWOULDBLOCK) {
		return nil, errHeld
	}
	return nil, &os.PathError{Op: "lock", Path: name, Err: err}
}
