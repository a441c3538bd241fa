//go:build unix

package main

import (
	"io/fs"
	"os"
	"syscall"
)

// dontWait opens a pipe at once, whether or not somebody is at its other end.
const dontWait = syscall.O_NONBLOCK

// otherNames is how many names a file has besides one.
func otherNames(info fs.FileInfo) int {
	if s, ok := info.Sys().(*syscall.Stat_t); ok && s.Nlink > 1 {
		return int(s.Nlink) - 1
	}
	return 0
}

// takeOwner gives a new file the owner and the group of an old one, each as far as
// the system lets it, and reports which it then has.
func takeOwner(f *os.File, old fs.FileInfo) (owner, group bool) {
	want, ok := old.Sys().(*syscall.Stat_t)
	if !ok {
		return true, true
	}
	has := func() *syscall.Stat_t {
		if info, err := f.Stat(); err == nil {
			if s, ok := info.Sys().(*syscall.Stat_t); ok {
				return s
			}
		}
		return &syscall.Stat_t{Uid: want.Uid + 1, Gid: want.Gid + 1} // it can't be told
	}
	const asIs = -1
	if now := has(); now.Gid != want.Gid {
		_ = f.Chown(asIs, int(want.Gid)) // whether it worked is seen below
	}
	if now := has(); now.Uid != want.Uid {
		_ = f.Chown(int(want.Uid), asIs)
	}
	now := has()
	return now.Uid == want.Uid, now.Gid == want.Gid
}
