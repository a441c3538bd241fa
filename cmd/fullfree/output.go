package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"

	"fullfree/linkage"
)

// writeWhole writes a file whole or not at all: under another name in the same
// folder, then renamed. A file that was there keeps its permissions, and a
// link goes on pointing where it did. What is no file, such as a terminal, is
// written to as it is. It returns what of the old file could not be kept, in words.
func writeWhole(path string, data []byte) (lost []string, err error) {
	if info, err := os.Stat(path); err == nil && !info.IsDir() && !info.Mode().IsRegular() {
		return nil, writeThrough(path, data)
	}
	p, err := prepare(path, data)
	if err != nil {
		return nil, err
	}
	return p.lost, p.put()
}

// writeTogether writes several files, all of them whole or none at all. The
// error is that of the file named.
func writeTogether(paths []string, data [][]byte) (name string, err error) {
	var all []*prepared
	defer func() {
		for _, p := range all { // what is not there any more, or not yet, is no matter
			p.drop()
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
	lost, err := writeWhole(name, result)
	if err != nil {
		return s.fail(c, "%s", cantWrite(name, err))
	}
	s.tellLost(c, name, lost)
	return exitOK
}

// tellLost tells what of a file that was written over could not be kept.
func (s streams) tellLost(c *command, name string, lost []string) {
	for _, what := range lost {
		s.message("fullfree %s: %s is written, but %s\n", c.name, linkage.Printable(name), what)
	}
}

// cantWrite tells why a new file can't be written.
func cantWrite(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		err = errors.New("there is no such folder")
	}
	return fmt.Errorf("can't write %s: %s", linkage.Printable(name), reason(err))
}

func writeThrough(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
