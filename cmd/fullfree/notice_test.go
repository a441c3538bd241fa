package main

import (
	"fmt"
	"os"
	"regexp"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// NOTICE names every module that is linked into the program or its tests, and
// has every license text that it refers to.
func TestNoticeIsWhole(t *testing.T) {
	text, err := os.ReadFile("../../NOTICE")
	require.NoError(t, err)
	notice := string(text)
	info, ok := debug.ReadBuildInfo()
	require.True(t, ok)
	require.NotEmpty(t, info.Deps)
	version := regexp.MustCompile(`/v\d+$`)
	for _, module := range info.Deps {
		assert.Contains(t, notice, version.ReplaceAllString(module.Path, ""))
	}
	referred := regexp.MustCompile(`text (\d+)\)`).FindAllStringSubmatch(notice, -1)
	assert.NotEmpty(t, referred)
	for _, text := range referred {
		assert.Regexp(t, fmt.Sprintf(`(?m)^Text %s: `, text[1]), notice)
	}
}
