package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fullfree/linkage"

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

// document is a text of the project whose examples are run.
type document struct{ path, text string }

// documents are the README and the pages of the manual.
func documents(t *testing.T) []document {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	list := []document{{"README.md", string(text)}}
	for _, topic := range topics() {
		page, ok := manualPage(topic)
		require.True(t, ok, topic)
		list = append(list, document{"cmd/fullfree/manual/" + topic + ".md", page})
	}
	return list
}

// mostReadme is how long, in bytes, the README may be: a newcomer reads it to the end.
// What is longer is a page of the manual.
const mostReadme = 12000

// The README is short and its first block the two commands, which .ci/run runs as they
// stand; the first of them gives what it should. Its example is that of the manual.
func TestReadme(t *testing.T) {
	texts := documents(t)
	readme := texts[0].text
	assert.LessOrEqual(t, len(readme), mostReadme)
	assert.Equal(t, blocks(readme, "hcl"), blocks(texts[1].text, "hcl"))
	workFolder(t)

	commands := blocks(readme, "sh")
	require.NotEmpty(t, commands)
	main := strings.Split(commands[0], "\n")
	require.Equal(t, "go test ./...", main[1])
	got := sh(t, main[0])
	assert.Equal(t, exitOK, got.status)
	assert.Contains(t, got.out, "\nHOLDS")
}

// The commands that the README and the manual show give what they show.
func TestConsoleExamples(t *testing.T) {
	texts := documents(t)
	examples := blocks(texts[0].text, "hcl")
	require.Len(t, examples, 1)
	ran := 0
	for _, d := range texts {
		t.Run(d.path, func(t *testing.T) {
			workFolder(t)
			require.NoError(t, os.WriteFile("flaps.hcl", []byte(examples[0]), 0o644))
			for _, block := range blocks(d.text, "console") {
				for _, session := range strings.Split("\n"+block, "\n$ ")[1:] {
					ran++
					command, shown, _ := strings.Cut(session, "\n")
					got := sh(t, command)
					printed := got.out + got.err
					if !assert.Regexp(t, shape(shown), printed, command) {
						t.Logf("$ %s\n%s", command, printed)
					}
				}
			}
		})
	}
	assert.Greater(t, ran, 20)
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
func TestLinks(t *testing.T) {
	texts := documents(t)
	text, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	for _, d := range append(texts, document{"DEVELOPERS.md", string(text)}) {
		var anchors []string
		for _, heading := range regexp.MustCompile(`(?m)^##+ (.*)$`).FindAllStringSubmatch(d.text, -1) {
			anchors = append(anchors, anchorOf(heading[1]))
		}
		for _, link := range links.FindAllStringSubmatch(d.text, -1) {
			switch to := link[1]; {
			case strings.HasPrefix(to, "https://"):
			case strings.HasPrefix(to, "#"):
				assert.Contains(t, anchors, to, d.path)
			default:
				assert.FileExists(t, filepath.Join("../..", filepath.Dir(d.path), to), d.path)
			}
		}
	}
}

// helpNamed are the words of the texts that say what "fullfree help" tells.
var helpNamed = regexp.MustCompile("`fullfree help ([a-z-]+)`")

// Every page of the manual is a topic, which the README leads to; what the texts send
// to is there; and on a terminal a page has no sign of Markdown and no line that is
// too long for it, but for what is typed or printed as it stands.
func TestManual(t *testing.T) {
	files, err := filepath.Glob("manual/*.md")
	require.NoError(t, err)
	assert.Len(t, files, len(topics()))
	texts := documents(t)
	for _, d := range texts {
		for _, named := range helpNamed.FindAllStringSubmatch(d.text, -1) {
			assert.Equal(t, exitOK, fullfree("", "help", named[1]).status, "%s: %s", d.path, named[0])
		}
	}
	for _, topic := range topics() {
		assert.Contains(t, texts[0].text, "(cmd/fullfree/manual/"+topic+".md)")
		assert.Nil(t, find(topic), "a command of the same name would hide it")
		got := fullfree("", "help", topic)
		assert.Equal(t, exitOK, got.status)
		assert.Empty(t, got.err)
		assert.NotContains(t, got.out, "\n\n\n", topic)
		for _, line := range strings.Split(got.out, "\n") {
			if !strings.HasPrefix(line, "    ") {
				assert.LessOrEqual(t, len([]rune(line)), plainWidth, "%s: %s", topic, line)
				assert.NotRegexp(t, "[`|]|\\*\\*|\\]\\(|<img", line, topic)
			}
		}
	}
}

// A page on a terminal.
func TestPlain(t *testing.T) {
	got := plain("# Stops\n\nA **stop** is `metal`,\nsee [there](#x).\n\n![A picture](x.svg)\n\n" +
		"- one that is\n  long\n\n| kind | attributes | holds when |\n|---|---|---|\n| `a` | | never |\n| | `b` | ever |\n\n" +
		"```console\n$ fullfree\n```\n\n| block | attributes |\n|---|---|\n| `c` | d |\n")
	assert.Equal(t, "STOPS\n\nA stop is metal, see there.\n\n- one that is long\n\n"+
		"a\n    holds when: never\n\n    attributes: b\n    holds when: ever\n\n    $ fullfree\n\nc\n    d\n", got)
}

// What the manual tells of the file format is what the reader knows.
func TestManualTellsEveryRequirement(t *testing.T) {
	page, ok := manualPage("requirements")
	require.True(t, ok)
	for _, kind := range []linkage.Kind{linkage.Opposite, linkage.Together, linkage.Steady, linkage.Sense, linkage.Travel, linkage.OverCenter, linkage.RodAngle, linkage.Clearance, linkage.Misalignment, linkage.Stops, linkage.Order, linkage.Engagement, linkage.SecondPath, linkage.Taut, linkage.Meets, linkage.Neutral, linkage.Symmetrical, linkage.Reading} {
		assert.Contains(t, page, "\n| `"+string(kind)+"` |")
	}
}
