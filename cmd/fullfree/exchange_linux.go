//go:build linux && (amd64 || arm64)

package main

import (
	"errors"
	"runtime"
	"syscall"
	"unsafe"
)

// renameat2(2) of Linux, by its number on the processors that are built for here
// (the kernel's system call tables); package syscall has no name for it.
var renameat2 = map[string]uintptr{"amd64": 316, "arm64": 276}[runtime.GOARCH]

const (
	renameExchange = 2    // RENAME_EXCHANGE
	hereFolder     = -100 // AT_FDCWD: paths are told from the working folder
)

// exchange lets two files change names, at once for everybody. Where the system or
// the disk's format can't, the error is errors.ErrUnsupported.
func exchange(a, b string) error {
	from, err := syscall.BytePtrFromString(a)
	if err != nil {
		return err
	}
	to, err := syscall.BytePtrFromString(b)
	if err != nil {
		return err
	}
	here := hereFolder
	_, _, number := syscall.Syscall6(renameat2, uintptr(here), uintptr(unsafe.Pointer(from)), uintptr(here), uintptr(unsafe.Pointer(to)), renameExchange, 0)
	switch number {
	case 0:
		return nil
	case syscall.EINVAL, syscall.ENOSYS:
		return errors.ErrUnsupported
	}
	return number
}
