package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"fullfree/linkage"
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
	if info, err := os.Stat(path); err == nil && !info.IsDir() && !info.Mode().IsRegular() {
		return writeThrough(path, data)
	}
	p, err := prepare(path, data)
	if err != nil {
		return err
	}
	if err := os.Rename(p.temp, p.path); err != nil {
		os.Remove(p.temp)
		return err
	}
	return nil
}

// writeTogether writes several files, all of them whole or none at all. The
// error is that of the file named.
func writeTogether(paths []string, data [][]byte) (name string, err error) {
	var all []*prepared
	defer func() {
		for _, p := range all { // what is not there any more, or not yet, is no matter
			os.Remove(p.temp)
			if err == nil {
				os.Remove(p.kept())
			}
		}
	}()
	for i, path := range paths {
		p, err := prepare(path, data[i])
		if err != nil {
			return path, err
		}
		same := slices.IndexFunc(all, func(other *prepared) bool { return absolute(other.path) == absolute(p.path) })
		all = append(all, p)
		if same >= 0 {
			return path, fmt.Errorf("it leads to the same file as %s", paths[same])
		}
	}
	for i, p := range all {
		if err = p.swap(); err != nil {
			for _, done := range all[:i] {
				done.swapBack()
			}
			return paths[i], err
		}
	}
	return "", nil
}

// write writes a result whole or not at all, to standard output where the name
// is "-", and returns the exit status.
func (s streams) write(c *command, name string, result []byte) int {
	if name == "-" {
		return s.print(c, result, exitOK)
	}
	if err := writeWhole(name, result); err != nil {
		return s.fail(c, "%s", cantWrite(name, err))
	}
	return exitOK
}

// cantWrite tells why a new file can't be written.
func cantWrite(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		err = errors.New("there is no such folder")
	}
	return fmt.Errorf("can't write %s: %s", linkage.Printable(name), reason(err))
}

// prepared is a file that lies beside the one that it is to become.
type prepared struct {
	path, temp string
	old        fs.FileInfo // what is there; nil: nothing
}

// prepare writes data to a file beside path.
func prepare(path string, data []byte) (*prepared, error) {
	old, err := os.Stat(path)
	switch {
	case err == nil && old.IsDir():
		return nil, errors.New("it is a folder")
	case err == nil && !old.Mode().IsRegular():
		return nil, errors.New("it is no file")
	case err == nil:
		if path, err = filepath.EvalSymlinks(path); err == nil {
			err = mayBeWritten(path, old)
		}
	case errors.Is(err, fs.ErrNotExist):
		path, err = followLinks(path)
	}
	if err != nil {
		return nil, err
	}
	temp, err := createTemp(path)
	if err != nil {
		return nil, err
	}
	if err := fill(temp, data, old); err != nil {
		os.Remove(temp.Name())
		return nil, err
	}
	return &prepared{path, temp.Name(), old}, nil
}

// absolute returns a path from the root, or as it is where that can't be told.
func absolute(path string) string {
	if whole, err := filepath.Abs(path); err == nil {
		return whole
	}
	return path
}

// kept is where what was there is kept until all files are in place.
func (p *prepared) kept() string { return p.temp + ".old" }

// swap puts the new file in place, and keeps the old one.
func (p *prepared) swap() error {
	if p.old != nil {
		if err := os.Rename(p.path, p.kept()); err != nil {
			return err
		}
	}
	err := os.Rename(p.temp, p.path)
	if err != nil && p.old != nil {
		err = errors.Join(err, os.Rename(p.kept(), p.path))
	}
	return err
}

// swapBack undoes swap.
func (p *prepared) swapBack() {
	if p.old == nil {
		os.Remove(p.path)
		return
	}
	// That it fails is nowhere to be told: what is to be told is why it is tried.
	_ = os.Rename(p.kept(), p.path)
}

// mayBeWritten tells why a file is not to be written over, though its folder
// would let it be replaced: whoever made it read-only meant it.
func mayBeWritten(path string, info fs.FileInfo) error {
	if info.Mode().Perm()&0o222 == 0 {
		return errors.New("it may only be read")
	}
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return f.Close()
}

// mostLinks is how many links in a row are followed: as many as Linux does
// (path_resolution(7), from memory).
const mostLinks = 40

// followLinks returns the path of the file that a path means where that is not
// there yet, though its folder must be: filepath.EvalSymlinks knows only what
// is there.
func followLinks(path string) (string, error) {
	for range mostLinks {
		folder, name := filepath.Split(path)
		if folder == "" {
			folder = "."
		}
		folder, err := filepath.EvalSymlinks(folder)
		if err != nil {
			return "", err
		}
		path = filepath.Join(folder, name)
		to, err := os.Readlink(path)
		switch {
		case err != nil: // no link, or not there yet
			return path, nil
		case filepath.IsAbs(to):
			path = to
		default: // not joined: that would take ".." for the folder as written
			path = folder + string(filepath.Separator) + to
		}
	}
	return "", errors.New("it is a link that leads to more and more links")
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
