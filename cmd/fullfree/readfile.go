package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"fullfree/linkage"
)

// Why something that a name leads to can't be read as a file.
var (
	errFolder = errors.New("it is a folder")
	errPipe   = errors.New(`it is a pipe, and a file is wanted ("-" reads standard input)`)
	errDevice = errors.New(`it is a device, and a file is wanted ("-" reads standard input)`)
)

// notAFile tells why what a name leads to is no file; nil where it is one.
func notAFile(mode fs.FileMode) error {
	switch {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		return errFolder
	case mode&(fs.ModeNamedPipe|fs.ModeSocket) != 0:
		return errPipe
	}
	return errDevice
}

// openFile opens a file to read. What is none is refused at once: it is looked at
// before it is opened, since opening a pipe waits for somebody to write into it
// and opening a device may do things; and, lest it was put there in between,
// opened so that it doesn't wait, and looked at again.
func openFile(name string) (*os.File, fs.FileInfo, error) {
	info, err := os.Stat(name)
	if err == nil {
		err = notAFile(info.Mode())
	}
	if err != nil {
		return nil, nil, err
	}
	f, err := os.OpenFile(name, os.O_RDONLY|dontWait, 0)
	if err != nil {
		return nil, nil, err
	}
	if info, err = f.Stat(); err == nil {
		err = notAFile(info.Mode())
	}
	if err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, info, nil
}

// besideOf opens the files that an aircraft file names: beside it, or below its folder.
// Nothing outside of that is opened, whatever links lead there.
func besideOf(name string) linkage.Opener {
	folder := "."
	if name != "-" {
		folder = filepath.Dir(name)
	}
	return func(member string) (*linkage.Source, error) {
		shown := filepath.Join(folder, filepath.FromSlash(member))
		text, err := readBelow(folder, filepath.FromSlash(member))
		if err != nil {
			return nil, cantRead(shown, err)
		}
		return &linkage.Source{Name: shown, Text: text}, nil
	}
}

// readBelow reads a file in a folder, or below it.
func readBelow(folder, name string) ([]byte, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	info, err := root.Stat(name)
	if err == nil {
		err = notAFile(info.Mode())
	}
	if err != nil {
		return nil, err
	}
	f, err := root.OpenFile(name, os.O_RDONLY|dontWait, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err = f.Stat(); err == nil {
		err = notAFile(info.Mode())
	}
	if err != nil {
		return nil, err
	}
	return io.ReadAll(io.LimitReader(f, mostBytes))
}

// cantRead tells why a file can't be read.
func cantRead(name string, err error) error {
	return fmt.Errorf("can't read %s: %s%s", linkage.Printable(name), reason(err), hint(name, err))
}
