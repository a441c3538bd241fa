//go:build browser

package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The file that the browser is given leads to the page, which shows the run.
func TestOpeningLeadsToThePage(t *testing.T) {
	b := newTab(t, 1200)
	workFolder(t)
	address, file, end := opening(t)
	b.open("file://" + file)
	b.until(`document.querySelector("#picture svg [data-at]")`)
	at, _, _ := strings.Cut(address, "#")
	assert.Equal(t, at, found[string](b, "location.href"), "the token is out of the address")
	b.quiet(at, "file://"+file)
	assert.Equal(t, exitOK, end())
}
