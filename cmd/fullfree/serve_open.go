package main

import (
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync"
	"time"
)

// openingPatience is how long a browser may take to read what opens the page.
const openingPatience = time.Minute

// openPage opens an address in the user's browser, without a shell. later is
// called where what was started for it fails. done is to be called when the page is
// open, and in the end; it may be called more than once.
//
// What a program is started with can be read by everybody on the machine, and the
// address must not be. So the browser is given a file that only this user can read,
// which sends it on to the address; done removes it, and so does the time.
func openPage(url string, later func(error)) (done func(), err error) {
	folder, err := os.MkdirTemp("", "fullfree-") // which nobody else may enter
	if err != nil {
		return func() {}, err
	}
	done = sync.OnceFunc(func() { _ = os.RemoveAll(folder) })
	file := filepath.Join(folder, "open.html")
	text := fmt.Sprintf("<!DOCTYPE html>\n<meta charset=\"utf-8\">\n<meta name=\"referrer\" content=\"no-referrer\">\n<meta http-equiv=\"refresh\" content=\"0; url=%[1]s\">\n<title>fullfree</title>\n<p><a href=\"%[1]s\">Open the page</a>\n", html.EscapeString(url))
	if err := os.WriteFile(file, []byte(text), ownMode); err != nil {
		done()
		return done, err
	}
	with := opener()
	command := exec.Command(with[0], append(with[1:], file)...)
	if err := command.Start(); err != nil {
		done()
		return done, err
	}
	time.AfterFunc(openingPatience, done)
	go func() {
		if err := command.Wait(); err != nil {
			later(err)
		}
	}()
	return done, nil
}

// opener is the program that opens a file with what the user has chosen for it.
func opener() []string {
	switch runtime.GOOS {
	case "windows":
		return []string{"rundll32", "url.dll,FileProtocolHandler"}
	case "darwin":
		return []string{"open"}
	}
	return []string{"xdg-open"}
}
