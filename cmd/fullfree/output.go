package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// newFileMode is what a new file may be used for, before the user's umask.
const newFileMode = 0o666

// mostTempNames is how many temporary names are tried: more than one is taken
// only where something was left behind or runs at the same time.
const mostTempNames = 100

// writeWhole writes a file whole or not at all: under another name in the same
// folder, then renamed. A file that was there keeps its permissions, and a
// link goes on pointing where it did. What is no file, such as a terminal, is
// written to as it is.
func writeWhole(path string, data []byte) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	old, err := os.Stat(path)
	switch {
	case err == nil && old.IsDir():
		return errors.New("it is a folder")
	case err == nil && !old.Mode().IsRegular():
		return writeThrough(path, data)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return err
	}
	temp, err := createTemp(path)
	if err != nil {
		return err
	}
	if err := fill(temp, data, old); err != nil {
		os.Remove(temp.Name())
		return err
	}
	if err := os.Rename(temp.Name(), path); err != nil {
		os.Remove(temp.Name())
		return err
	}
	return nil
}

// createTemp opens a new file beside path. Unlike os.CreateTemp it leaves the
// permissions to the umask, as for any new file.
func createTemp(path string) (*os.File, error) {
	for i := 0; ; i++ {
		name := fmt.Sprintf("%s.%d-%d.tmp", path, os.Getpid(), i)
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, newFileMode)
		if err == nil || i == mostTempNames || !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// fill writes and closes a file, with the permissions of the one that it is
// to replace, if there is one.
func fill(f *os.File, data []byte, old fs.FileInfo) error {
	_, err := f.Write(data)
	if err == nil && old != nil {
		err = f.Chmod(old.Mode().Perm())
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

func writeThrough(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
