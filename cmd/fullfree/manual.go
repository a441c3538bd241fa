package main

import (
	"embed"
	"slices"
	"strings"
)

// manualPages are the topics of the manual, in Markdown: what is a reference, and too
// long for the README. Their console examples are run by the tests.
//
//go:embed manual/*.md
var manualPages embed.FS

// topics are the names of the manual's pages, in the order in which the help lists
// them: the way of a first run, then what is looked up.
func topics() []string {
	return []string{"begin", "file", "mirror", "requirements", "sense", "commands", "pages", "answer", "measure", "tape", "settings", "dimensions", "readings", "second-path", "cables", "failures", "tolerances", "rotor", "aircraft", "changes", "status"}
}

// manualPage returns a topic's Markdown; false where there is no such topic.
func manualPage(topic string) (string, bool) {
	if !slices.Contains(topics(), topic) {
		return "", false
	}
	text, err := manualPages.ReadFile("manual/" + topic + ".md")
	return string(text), err == nil
}

// titleOf is the title of a page: its first line, without the sign of a heading.
func titleOf(page string) string {
	first, _, _ := strings.Cut(page, "\n")
	return strings.TrimPrefix(first, "# ")
}
