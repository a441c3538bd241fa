//go:build browser

package main

import (
	"crypto/sha256"
	"encoding/base64"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pageFolder holds the web files of the pages.
const pageFolder = "../../render/page/"

// partPage makes a page of some of the pages' own files, with a policy as they have, to try a
// part by itself: what it is put in asks for no program. Styles and scripts are files;
// body is the templates in it, and script is what begins it. It returns the page's address.
func partPage(t *testing.T, styles, scripts, templates []string, body, script string) string {
	t.Helper()
	text := func(names []string) string {
		var all strings.Builder
		for _, name := range names {
			part, err := os.ReadFile(pageFolder + name)
			require.NoError(t, err)
			all.Write(part)
		}
		return all.String()
	}
	defined := map[string]string{}
	for _, found := range regexp.MustCompile(`(?s)\{\{define "([^"]+)"\}\}(.*?)\{\{end\}\}`).FindAllStringSubmatch(text(templates), -1) {
		defined[found[1]] = found[2]
	}
	call := regexp.MustCompile(`\{\{template "([^"]+)"\}\}`)
	for call.MatchString(body) {
		body = call.ReplaceAllStringFunc(body, func(one string) string {
			name := call.FindStringSubmatch(one)[1]
			require.Contains(t, defined, name)
			return defined[name]
		})
	}
	hash := func(text string) string {
		sum := sha256.Sum256([]byte(text))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	style, code := text(append([]string{"page.css", "workbench.css", "onepage.css"}, styles...)), text(scripts)+script
	page := `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src ` + hash(style) + `; script-src ` + hash(code) + `; base-uri 'none'; form-action 'none'; connect-src 'none'; worker-src blob:">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>A part</title><style>` + style + `</style></head>
<body><h1>A part by itself</h1><div class="unseen" id="told" role="status" aria-live="polite"></div>` + body + `<script>` + code + `</script></body></html>`
	path := filepath.Join(t.TempDir(), "part.html")
	require.NoError(t, os.WriteFile(path, []byte(page), 0o644))
	return "file://" + path
}

// awaits waits until a promise in the page is kept.
func (b *tab) awaits(promise string) {
	b.t.Helper()
	found[bool](b, `(window.awaited = false, (`+promise+`).then(() => { window.awaited = true; }), true)`)
	b.until(`window.awaited`)
}
