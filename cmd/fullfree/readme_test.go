package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// elided stands in the README for lines that it doesn't repeat.
const elided = "[...]"

// blocks returns the fenced blocks of a kind in a Markdown text.
func blocks(text, kind string) []string {
	var out []string
	for _, rest := range strings.Split(text, "\n```"+kind+"\n")[1:] {
		block, _, _ := strings.Cut(rest, "```")
		out = append(out, block)
	}
	return out
}

// The README's example is checked, and its commands give what it shows. The
// commands of its first block are run by .ci/run as they stand.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	readme := string(text)
	workFolder(t)

	examples := blocks(readme, "hcl")
	require.Len(t, examples, 1)
	require.NoError(t, os.WriteFile("flaps.hcl", []byte(examples[0]), 0o644))

	commands := blocks(readme, "sh")
	require.NotEmpty(t, commands)
	main := strings.Split(commands[0], "\n")
	require.Equal(t, "go test ./...", main[1])
	got := sh(t, main[0])
	assert.Equal(t, exitOK, got.status)
	assert.Contains(t, got.out, "\nHOLDS")

	consoles := blocks(readme, "console")
	require.NotEmpty(t, consoles)
	for _, block := range consoles {
		for _, session := range strings.Split("\n"+block, "\n$ ")[1:] {
			command, shown, _ := strings.Cut(session, "\n")
			got := sh(t, command)
			printed := got.out + got.err
			if !assert.Regexp(t, shape(shown), printed, command) {
				t.Logf("$ %s\n%s", command, printed)
			}
		}
	}
}

// shape is the pattern of an output with lines left out.
func shape(shown string) *regexp.Regexp {
	var b strings.Builder
	b.WriteString(`\A`)
	if shown == "" {
		return regexp.MustCompile(`\A\z`)
	}
	for _, line := range strings.Split(strings.TrimSuffix(shown, "\n"), "\n") {
		if line == elided {
			b.WriteString(`(?s:.*\n)`)
		} else {
			b.WriteString(regexp.QuoteMeta(line) + `\n`)
		}
	}
	b.WriteString(`\z`)
	return regexp.MustCompile(b.String())
}

// links are where links and pictures of a Markdown text lead.
var links = regexp.MustCompile(`(?:\]\(|src=")([^)"]+)[)"]`)

// anchorOf is the anchor of a heading, as GitHub makes it: small letters, digits
// and dashes for spaces.
func anchorOf(heading string) string {
	kept := strings.Map(func(r rune) rune {
		switch {
		case r == ' ':
			return '-'
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-':
			return r
		}
		return -1
	}, strings.ToLower(heading))
	return "#" + kept
}

// Every link that stays in the project leads somewhere.
func TestReadmeLinks(t *testing.T) {
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile("../../" + name)
		require.NoError(t, err)
		var anchors []string
		for _, heading := range regexp.MustCompile(`(?m)^##+ (.*)$`).FindAllStringSubmatch(string(text), -1) {
			anchors = append(anchors, anchorOf(heading[1]))
		}
		for _, link := range links.FindAllStringSubmatch(string(text), -1) {
			switch to := link[1]; {
			case strings.HasPrefix(to, "https://"):
			case strings.HasPrefix(to, "#"):
				assert.Contains(t, anchors, to, name)
			default:
				assert.FileExists(t, "../../"+to, name)
			}
		}
	}
}

// What the README tells of the file format is what the reader knows.
func TestReadmeTellsEveryRequirement(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	got := fullfree(bars+"require \"frobnicate\" {}\n", "check", "-")
	require.Equal(t, exitFailed, got.status)
	for _, kind := range []string{"opposite", "together", "steady", "sense", "travel", "over-center", "rod-angle", "clearance", "misalignment", "stops", "order", "engagement", "second-path", "taut", "meets"} {
		assert.Contains(t, string(text), "\n| `"+kind+"` |")
	}
}
