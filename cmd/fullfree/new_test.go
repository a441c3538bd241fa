package main

import (
	"strings"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
)

func TestNew(t *testing.T) {
	for _, kind := range demo.Kinds() {
		text, _ := demo.File(kind)
		assert.Equal(t, outcome{exitOK, string(text), ""}, fullfree("", "new", kind))
		checked := fullfree(string(text), "check", "-")
		assert.Equal(t, exitOK, checked.status, checked.out+checked.err)
	}
	told := fullfree("", "new")
	assert.Equal(t, outcome{status: exitOK}, outcome{status: told.status, err: told.err})
	lines := strings.Split(strings.TrimSuffix(told.out, "\n"), "\n")
	for i, kind := range demo.Kinds() {
		assert.Regexp(t, "^"+kind+" +"+demo.About(kind)+"$", lines[i])
		assert.LessOrEqual(t, len(lines[i]), 80, "a line of a terminal")
	}
	assert.Len(t, lines, len(demo.Kinds()))
}
