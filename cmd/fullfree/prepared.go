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

// ownMode is what a file may be used for until it has the permissions of the one
// that it is to replace: by its owner alone.
const ownMode = 0o600

// mostTempNames is how many temporary names are tried: more than one is taken
// only where something was left behind or runs at the same time.
const mostTempNames = 100

// prepared is a file that lies beside the one that it is to become.
type prepared struct {
	path, temp string
	old        fs.FileInfo // what is there; nil: nothing
	lost       []string    // what of the old file can't be kept, in words
}

// prepare writes data to a file beside path. It has the permissions of what it is
// to replace before a byte is in it, and its owner and group where the system lets
// it; a link goes on pointing where it did.
func prepare(path string, data []byte) (*prepared, error) {
	old, err := os.Stat(path)
	switch {
	case err == nil && old.IsDir():
		return nil, errFolder
	case err == nil && !old.Mode().IsRegular():
		return nil, errors.New("it is no file")
	case err == nil:
		if path, err = filepath.EvalSymlinks(path); err == nil {
			err = mayBeWritten(path, old)
		}
	case errors.Is(err, fs.ErrNotExist):
		old = nil
		path, err = followLinks(path)
	}
	if err != nil {
		return nil, err
	}
	p := &prepared{path: path, old: old}
	temp, err := p.createTemp()
	if err != nil {
		return nil, err
	}
	if err := p.fill(temp, data); err != nil {
		p.drop()
		return nil, err
	}
	return p, nil
}

// createTemp opens a new file beside the path. Unlike os.CreateTemp it leaves the
// permissions of what replaces nothing to the umask, as for any new file.
func (p *prepared) createTemp() (*os.File, error) {
	mode := fs.FileMode(newFileMode)
	if p.old != nil {
		mode = ownMode
	}
	for i := 0; ; i++ {
		p.temp = fmt.Sprintf("%s.%d-%d.tmp", p.path, os.Getpid(), i)
		f, err := os.OpenFile(p.temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if err == nil || i == mostTempNames || !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// fill gives the file what it takes from the old one, writes it and closes it.
func (p *prepared) fill(f *os.File, data []byte) error {
	var err error
	if p.old != nil {
		err = p.takeAfter(f)
	}
	if err == nil {
		_, err = f.Write(data)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// takeAfter gives a new file the owner and the permissions of the old one, and
// notes what it can't. A group that isn't the old one may do no more than others.
func (p *prepared) takeAfter(f *os.File) error {
	const (
		setBits   = fs.ModeSetuid | fs.ModeSetgid | fs.ModeSticky
		groupBits = 0o070
	)
	mode := p.old.Mode() & (fs.ModePerm | setBits)
	owner, group := takeOwner(f, p.old)
	if !owner {
		p.lost = append(p.lost, "its owner could not be kept, so it is yours now")
	}
	if !group {
		mode = mode&^groupBits | mode&groupBits&(mode<<3)
		p.lost = append(p.lost, "its group could not be kept, and may do no more with it now than others")
	}
	if !owner || !group {
		mode &^= setBits // they would lend whose it is now to others
	}
	switch others := otherNames(p.old); {
	case others == 1:
		p.lost = append(p.lost, "it had another name (a hard link), under which the file stays as it was")
	case others > 1:
		p.lost = append(p.lost, fmt.Sprintf("it had %d other names (hard links), under which the file stays as it was", others))
	}
	return f.Chmod(mode)
}

// drop removes the file that was prepared. That it can't, or that it is gone
// already, is no matter.
func (p *prepared) drop() { _ = os.Remove(p.temp) }

// kept is where what was there is kept until all is in place.
func (p *prepared) kept() string { return p.temp + ".old" }

// put puts the file in place, whatever is there.
func (p *prepared) put() error {
	err := os.Rename(p.temp, p.path)
	if err != nil {
		p.drop()
	}
	return err
}

// swap puts the new file in place, and keeps the old one. Where there was none, it
// replaces none that came since.
func (p *prepared) swap() error {
	if p.old == nil {
		return fillGap(p.temp, p.path)
	}
	if err := os.Rename(p.path, p.kept()); err != nil {
		return err
	}
	err := os.Rename(p.temp, p.path)
	if err != nil {
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

// fillGap moves a file to a path where nothing is; if something is, the error is
// fs.ErrExist.
func fillGap(file, path string) error {
	err := os.Link(file, path)
	switch {
	case err == nil:
		return os.Remove(file)
	case errors.Is(err, fs.ErrExist):
		return fs.ErrExist
	}
	// Some disks' formats know no links. Then this looks first.
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return fs.ErrExist
	}
	return os.Rename(file, path)
}

// mayBeWritten tells why a file is not to be written over, though its folder
// would let it be replaced: whoever made it read-only meant it.
func mayBeWritten(path string, info fs.FileInfo) error {
	if info.Mode().Perm()&0o222 == 0 {
		return errors.New("it may only be read")
	}
	f, err := os.OpenFile(path, os.O_WRONLY|dontWait, 0)
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

// absolute returns a path from the root, or as it is where that can't be told.
func absolute(path string) string {
	if whole, err := filepath.Abs(path); err == nil {
		return whole
	}
	return path
}
