package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
)

// errChanged is that a file is no longer what was read.
var errChanged = errors.New("it has changed meanwhile")

// replaceWhole writes a file anew that was read before, whole or not at all, and
// only if it still is what was read then; else the error is errChanged, and what
// somebody else has saved meanwhile stays. It returns what of the old file could
// not be kept, in words.
func replaceWhole(path string, was, data []byte) (lost []string, err error) {
	p, err := prepare(path, data)
	if err != nil {
		return nil, err
	}
	return p.lost, p.putFor(was, exchange)
}

// putFor puts the file in place of one that holds was. Looking first and renaming
// then would lose what somebody saves between the two. So the files change names,
// which is done at once, and what has come out is looked at: where it isn't what
// was read, it goes back. exchange does that; where it can't, the old file is moved
// aside and looked at, and the new one put where then nothing is, if there still
// is nothing. For that moment there is no file of that name.
//
// What is lost nevertheless is what an editor writes, into a file that it opened
// before they changed names, after the look: it would have to be cut short within
// microseconds.
func (p *prepared) putFor(was []byte, exchange func(a, b string) error) error {
	defer p.drop()
	ours, release, err := identify(p.temp)
	if err != nil {
		return err
	}
	defer func() { release() }()
	err = exchange(p.temp, p.path)
	switch {
	case errors.Is(err, errors.ErrUnsupported):
		release() // some systems don't rename what is open
		release = func() {}
		return p.putAside(was)
	case errors.Is(err, fs.ErrNotExist):
		return errChanged
	case err != nil:
		return err
	case holds(p.temp, was):
		return nil
	}
	return p.giveBack(ours, exchange)
}

// mostReturns is how often a file is given back: more than once only where somebody
// saves it again in that very moment.
const mostReturns = 1000

// giveBack puts what came out back in place. What comes out then is the new file,
// or what somebody has saved over it in between, which goes back in its turn.
func (p *prepared) giveBack(in fs.FileInfo, exchange func(a, b string) error) error {
	for range mostReturns {
		out, release, err := identify(p.temp)
		if err != nil {
			return err
		}
		defer release()
		if err := exchange(p.temp, p.path); errors.Is(err, fs.ErrNotExist) {
			err = fillGap(p.temp, p.path) // what was there has been removed
			if errors.Is(err, fs.ErrExist) {
				continue
			}
			return errors.Join(errChanged, err)
		} else if err != nil {
			return err
		}
		if now, err := os.Lstat(p.temp); err == nil && os.SameFile(now, in) {
			return errChanged
		}
		in = out
	}
	return errChanged
}

// identify tells which file a name stands for, and keeps it open until it is released: the
// number of a file that is gone is given to the next one, which would be taken for it.
func identify(path string) (info fs.FileInfo, release func(), err error) {
	release = func() {}
	if info, err = os.Lstat(path); err != nil || !info.Mode().IsRegular() {
		return info, release, err
	}
	if f, _, err := openFile(path); err == nil {
		release = func() { f.Close() }
	}
	return info, release, nil
}

// putAside is putFor where two files can't change names at once.
func (p *prepared) putAside(was []byte) error {
	err := os.Rename(p.path, p.kept())
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errChanged
	case err != nil:
		return err
	}
	fresh, changed := p.temp, !holds(p.kept(), was)
	if changed {
		fresh = p.kept()
	}
	err = fillGap(fresh, p.path)
	switch {
	case errors.Is(err, fs.ErrExist): // somebody saved meanwhile, over what was there
		changed, err = true, nil
	case err != nil:
		return errors.Join(err, fillGap(p.kept(), p.path))
	}
	_ = os.Remove(p.kept()) // which is gone already where it went back
	if changed {
		return errChanged
	}
	return err
}

// holds reports whether a file holds a text, and nothing else.
func holds(path string, text []byte) bool {
	f, _, err := openFile(path)
	if err != nil {
		return false
	}
	defer f.Close()
	now, err := io.ReadAll(io.LimitReader(f, int64(len(text))+1))
	return err == nil && bytes.Equal(now, text)
}
