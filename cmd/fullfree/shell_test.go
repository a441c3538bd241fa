package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// workFolder makes a folder with the demos in it, as "fullfree new" gives
// them and as the checkout has them, and works there until the test ends.
func workFolder(t *testing.T) {
	t.Helper()
	folder := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(folder, "demo"), 0o755))
	files, err := filepath.Glob("../../demo/*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(folder, "demo", filepath.Base(f)), text, 0o644))
	}
	for _, kind := range demo.Kinds() {
		require.NoError(t, os.WriteFile(filepath.Join(folder, kind+".hcl"), []byte(demoText(t, kind)), 0o644))
	}
	require.NoError(t, os.CopyFS(filepath.Join(folder, "aircraft"), os.DirFS("../../demo/aircraft")))
	t.Chdir(folder)
}

// sh runs a line as a shell would, as far as this project's own texts need
// it: commands named fullfree, with pipes and an output file. It returns what
// the last command did and all of standard error.
func sh(t *testing.T, line string) outcome {
	t.Helper()
	line, file, toFile := strings.Cut(line, ">")
	stdin, all := "", outcome{}
	for _, stage := range strings.Split(line, "|") {
		words := strings.Fields(stage)
		if strings.HasPrefix(stage, "go run ./cmd/fullfree ") {
			words = words[2:]
			words[0] = "fullfree"
		}
		require.NotEmpty(t, words)
		require.Equal(t, "fullfree", words[0], "in %q", line)
		var out, err bytes.Buffer
		all.status = run(words[1:], strings.NewReader(stdin), &out, &err)
		stdin, all.out, all.err = out.String(), out.String(), all.err+err.String()
	}
	if toFile {
		require.NoError(t, os.WriteFile(strings.TrimSpace(file), []byte(all.out), 0o644))
		all.out = ""
	}
	return all
}

// Every example that a help gives works.
func TestHelpExamplesWork(t *testing.T) {
	workFolder(t)
	for _, text := range []string{overview(), fullfree("", "help", "check").out, fullfree("", "help", "sweep").out,
		fullfree("", "help", "draw").out, fullfree("", "help", "report").out, fullfree("", "help", "compare").out, fullfree("", "help", "recheck").out, fullfree("", "help", "effect").out,
		fullfree("", "help", "rig").out, fullfree("", "help", "rods").out, fullfree("", "help", "survey").out, fullfree("", "help", "diagnose").out, fullfree("", "help", "new").out, fullfree("", "help", "completion").out, fullfree("", "help", "version").out, fullfree("", "help", "help").out} {
		_, examples, _ := strings.Cut(text, "\nExample")
		if text == overview() {
			_, examples, _ = strings.Cut(text, "To begin")
		}
		ran := 0
		for _, line := range strings.Split(examples, "\n") {
			if !strings.HasPrefix(line, "  fullfree ") {
				continue
			}
			ran++
			got := sh(t, strings.TrimSpace(line))
			if strings.Contains(line, ".svg --full-size") || strings.HasSuffix(line, "-o sheets") {
				assert.Regexp(t, `\AWritten: \S[^\n]*\.\n\z`, got.err, line)
			} else {
				assert.Empty(t, got.err, line)
			}
			assert.NotEqual(t, exitFailed, got.status, line)
		}
		assert.NotZero(t, ran, text)
	}
}
