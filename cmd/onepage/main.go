// Command onepage writes the whole tool as one page: a file that any current browser opens
// from a folder, a stick or a mail, with no network, no server and nothing installed.
//
//	go run ./cmd/onepage [FILE...] -o OUT.html
//
// The program of worker is compiled for js/wasm by the installed Go, compressed and put into
// the page; so are the runs of the files, of an aircraft with those that it names. It is run
// from a checkout, which has what is compiled.
package main

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render/page"

	"github.com/spf13/pflag"
)

// mostPage is how large the page may be: a mail carries it.
const mostPage = 9_000_000 // bytes

func main() {
	if err := run(os.Args[1:], os.Stderr); err != nil {
		fmt.Fprintf(os.Stderr, "onepage: %s\n", err)
		os.Exit(2)
	}
}

func run(args []string, says io.Writer) error {
	flags := pflag.NewFlagSet("onepage", pflag.ContinueOnError)
	output := flags.StringP("output", "o", "", "the page to write: `OUT.html`")
	program := flags.String("program", "", "pack this `FILE` instead of compiling the program: for tests")
	flags.SetOutput(says)
	flags.Usage = func() {
		fmt.Fprintf(says, "go run ./cmd/onepage [FILE...] -o OUT.html\n%s", flags.FlagUsages())
	}
	switch err := flags.Parse(args); {
	case errors.Is(err, pflag.ErrHelp):
		return nil
	case err != nil:
		return err
	case *output == "":
		return errors.New("tell where to write the page: -o OUT.html")
	case !strings.EqualFold(filepath.Ext(*output), ".html"):
		return fmt.Errorf("-o %s: the page is HTML: name it OUT.html", linkage.Printable(*output))
	}
	files, err := carried(flags.Args())
	if err != nil {
		return err
	}
	support, err := supportScript()
	if err != nil {
		return err
	}
	wasm, err := compiled(*program, says)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := page.WriteOnePage(&out, page.OnePage{Program: wasm, Support: support, Files: files}); err != nil {
		return err
	}
	if out.Len() > mostPage {
		return fmt.Errorf("the page would be %d bytes, and %d are the most", out.Len(), mostPage)
	}
	return os.WriteFile(*output, out.Bytes(), 0o644)
}

// carried are the files that the page is to hold, of an aircraft with those that it names,
// under their bare names.
func carried(names []string) (list []page.OneText, err error) {
	from := map[string]string{}
	add := func(path string, text []byte) error {
		name := filepath.Base(path)
		switch other, known := from[name]; {
		case known && other == filepath.Clean(path):
			return nil
		case known:
			return fmt.Errorf("%s and %s have one name, and the page has no folders: rename one", linkage.Printable(other), linkage.Printable(path))
		}
		from[name] = filepath.Clean(path)
		list = append(list, page.OneText{Name: name, Text: string(text)})
		return nil
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if err := add(name, text); err != nil {
			return nil, err
		}
		in := &calls.Input{Name: name, Beside: beside(name)}
		if err := in.Read(text); err != nil {
			return nil, err
		}
		if in.Run.Aircraft == nil {
			continue
		}
		for _, m := range in.Run.Aircraft.Members {
			if err := add(m.Source.Name, m.Source.Text); err != nil {
				return nil, err
			}
		}
	}
	return list, nil
}

// beside opens what an aircraft file names, in its folder or below.
func beside(name string) linkage.Opener {
	folder := filepath.Dir(name)
	return func(member string) (*linkage.Source, error) {
		root, err := os.OpenRoot(folder)
		if err != nil {
			return nil, err
		}
		defer root.Close()
		text, err := root.ReadFile(filepath.FromSlash(member))
		if err != nil {
			return nil, err
		}
		return &linkage.Source{Name: filepath.Join(folder, filepath.FromSlash(member)), Text: text}, nil
	}
}

// supportScript is Go's own script that runs a program compiled for js/wasm, of the Go that
// compiles it.
func supportScript() (string, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("go env GOROOT: %w", err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	return string(text), err
}

// compiled is the program of the worker for js/wasm, compressed.
func compiled(program string, says io.Writer) ([]byte, error) {
	if program == "" {
		folder, err := os.MkdirTemp("", "onepage")
		if err != nil {
			return nil, err
		}
		defer os.RemoveAll(folder)
		program = filepath.Join(folder, "worker.wasm")
		build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", program, "fullfree/cmd/onepage/worker")
		build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		build.Stdout, build.Stderr = says, says
		if err := build.Run(); err != nil {
			return nil, fmt.Errorf("the program can't be compiled (go build of cmd/onepage/worker for js/wasm): %w", err)
		}
	}
	text, err := os.ReadFile(program)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(text); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
