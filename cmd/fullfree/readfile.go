package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

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

// cantRead tells why a file can't be read.
func cantRead(name string, err error) error {
	return fmt.Errorf("can't read %s: %s%s", linkage.Printable(name), reason(err), hint(name, err))
}
