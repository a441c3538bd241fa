// Package page makes the pages that are read in a browser, each one file that asks
// for nothing from any network: the rigging book with its rigging sheets, and the page
// where settings are tried, with what the server answers it. Their looks, scripts and
// templates are the files beside it. It puts together what packages render and picture
// tell; it listens to no network, and solves and judges nothing.
package page

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"io"
	"strings"

	"fullfree/render/figure"
)

// webFiles are the looks, the scripts and the templates of the pages.
//
//go:embed *.css *.js *.html
var webFiles embed.FS

// webPage is a page that is one file: its one style and its one script stand
// in it, and its policy allows those two alone, by their hashes. So there can
// be no style attribute and no handler in an attribute anywhere in it, and
// whatever a name of the file may hold, the browser runs nothing of it.
type webPage struct {
	Title   string
	Policy  string // Content-Security-Policy
	Style   template.CSS
	Script  template.JS
	Content any // what the template "body" is given
}

// newWebPage puts a page together from files of this package: page.css and the
// styles, and the scripts, in this order. More ends the policy; what of it begins with
// "script-src " allows scripts that. Rules of its own, which hold nothing that a user
// wrote, end the style.
func newWebPage(title string, styles, scripts, more []string, rules ...string) webPage {
	style, script := webText(append([]string{"page.css"}, styles...))+strings.Join(rules, ""), webText(scripts)
	return webPage{
		Title: figure.Clean(title), Policy: webPolicy(style, script, more),
		// The files are ours, and hold no end tag (a test sees to it).
		Style: template.CSS(style), Script: template.JS(script),
	}
}

// webText is files of this package one after another.
func webText(names []string) string {
	var b strings.Builder
	for _, name := range names {
		text, err := webFiles.ReadFile(name)
		if err != nil {
			panic("render: no file of the page: " + err.Error()) // a fault of the program, never of a run
		}
		b.Write(text)
	}
	return b.String()
}

// webPolicy allows one inline style and one inline script, and nothing else but more.
func webPolicy(style, script string, more []string) string {
	policy := []string{
		"default-src 'none'",
		"style-src '" + sourceHash(style) + "'",
		"script-src '" + sourceHash(script) + "'",
		"base-uri 'none'",
		"form-action 'none'",
	}
	for _, directive := range more {
		if allowed, ok := strings.CutPrefix(directive, "script-src "); ok {
			policy[2] += " " + allowed
			continue
		}
		policy = append(policy, directive)
	}
	return strings.Join(policy, "; ")
}

// sourceHash is a hash as a policy writes it (W3C, Content Security Policy
// Level 3, hash-source).
func sourceHash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

// write writes the page whole, or not at all.
func (p webPage) write(w io.Writer, t webTemplates) error {
	var b bytes.Buffer
	if err := t.fill(&b, "page", p); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}
