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
	assert.Equal(t, outcome{exitOK, strings.Join(demo.Kinds(), "\n") + "\n", ""}, fullfree("", "new"))
}
