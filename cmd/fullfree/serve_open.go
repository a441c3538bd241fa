package main

import (
	"os/exec"
	"runtime"
)

// openPage opens an address in the user's browser, without a shell. later is
// called where what was started for it fails.
func openPage(url string, later func(error)) error {
	var name string
	var args []string
	switch runtime.GOOS {
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler"}
	case "darwin":
		name = "open"
	default:
		name = "xdg-open"
	}
	command := exec.Command(name, append(args, url)...)
	if err := command.Start(); err != nil {
		return err
	}
	go func() {
		if err := command.Wait(); err != nil {
			later(err)
		}
	}()
	return nil
}
