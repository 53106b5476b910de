package main

import (
	"errors"
	"os"
	"syscall"
)

// errShared is ERROR_SHARING_VIOLATION: another process has the file open in another way.
const errShared = syscall.Errno(32)

// openLocked opens a file that no other process has locked, and locks it until it is closed:
// nobody else may open it to write.
func openLocked(name string) (*os.File, error) {
	path, err := syscall.UTF16PtrFromString(name)
	if err != nil {
		return nil, err
	}
	handle, err := syscall.CreateFile(path, syscall.GENERIC_READ|syscall.GENERIC_WRITE,
		syscall.FILE_SHARE_READ|syscall.FILE_SHARE_DELETE, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	switch {
	case errors.Is(err, errShared):
		return nil, errHeld
	case err != nil:
		return nil, &os.PathError{Op: "open", Path: name, Err: err}
	}
	return os.NewFile(uintptr(handle), name), nil
}
