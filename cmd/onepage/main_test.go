package main

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"html"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The page has the program, Go's own script for it, the files, and a policy that lets it ask
// for nothing and run nothing but these.
func TestOnePage(t *testing.T) {
	folder := t.TempDir()
	program := filepath.Join(folder, "program")
	require.NoError(t, os.WriteFile(program, []byte("\x00asm</script>"), 0o644))
	out := filepath.Join(folder, "page.html")
	require.NoError(t, run([]string{"--program", program, "../../demo/sticks.hcl", "../../demo/aircraft/aircraft.hcl", "-o", out}, io.Discard))
	text, err := os.ReadFile(out)
	require.NoError(t, err)
	page := string(text)

	policy := html.UnescapeString(regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(page)[1])
	assert.Regexp(t, `^default-src 'none'; style-src 'sha256-[^']+'; script-src 'sha256-[^']+' 'wasm-unsafe-eval'; base-uri 'none'; form-action 'none'; connect-src 'none'; worker-src blob:$`, policy)
	assert.NotRegexp(t, `\s(style|on[a-z]+)=`, strings.Split(page, "<script")[0])
	assert.NotRegexp(t, `(src|href)="`, page, "nothing is fetched from anywhere")

	packed := between(t, page, `id="program">`, "</script>")
	raw, err := base64.StdEncoding.DecodeString(strings.ReplaceAll(packed, "\n", ""))
	require.NoError(t, err)
	unpacked, err := gzip.NewReader(bytes.NewReader(raw))
	require.NoError(t, err)
	whole, err := io.ReadAll(unpacked)
	require.NoError(t, err)
	assert.Equal(t, "\x00asm</script>", string(whole))
	assert.Contains(t, between(t, page, `id="worker">`, "</script>"), "globalThis.Go = class")
	carried := between(t, page, `id="carried">`, "</script>")
	for _, name := range []string{"sticks.hcl", "aircraft.hcl", "pedals.hcl", "tail-run.hcl"} {
		assert.Contains(t, carried, `"name":"`+name+`"`)
	}
	assert.True(t, strings.HasPrefix(carried, `[{"name":"sticks.hcl"`), "the first is shown")
}

func between(t *testing.T, text, open, end string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, open)
	require.True(t, ok, open)
	text, _, ok = strings.Cut(rest, end)
	require.True(t, ok, end)
	return text
}

func TestOnePageRefuses(t *testing.T) {
	folder := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	demo, err := os.ReadFile("../../demo/pedals.hcl")
	require.NoError(t, err)
	one, other := write("pedals.hcl", string(demo)), write("b/pedals.hcl", string(demo))
	page := filepath.Join(folder, "page.html")
	for wrong, args := range map[string][]string{
		"tell where to write":  {},
		"the page is HTML":     {"-o", one},
		"no such file":         {filepath.Join(folder, "none.hcl"), "-o", page},
		"have one name":        {one, other, "-o", page},
		"nonsense.hcl:1,1":     {write("nonsense.hcl", "x = 1"), "-o", page},
		"unknown flag: --what": {"--what"},
	} {
		err := run(args, io.Discard)
		require.Error(t, err, wrong)
		assert.Contains(t, err.Error(), wrong)
	}
	assert.NoFileExists(t, page)
}
