package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden reports anew")

// The reports of the demos, as a builder reads them.
func TestGoldenReports(t *testing.T) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole, demo.Taped) {
		want := exitOK
		if kind == demo.WrongHole {
			want = exitShort
		}
		golden(t, kind+".txt", kind, want, "check", "-", "--full")
	}
	golden(t, demo.Dual+".txt", demo.Dual, exitOK, "check", "-", "--full")
	golden(t, demo.Unequal+".txt", demo.Unequal, exitShort, "check", "-", "--full")
	for kind, want := range map[string]int{"pedals": exitOK, "sticks": exitOK, demo.Unequal: exitShort, demo.WrongHole: exitShort} {
		golden(t, kind+"-short.txt", kind, want, "check", "-")
	}
	golden(t, demo.Unequal+"-effect.txt", demo.Unequal, exitOK, "effect", "--full", "-")
	golden(t, demo.Unequal+"-compare.txt", demo.Unequal, exitOK, "compare", "-", "--with", "right-link.from=-1.5", "--with", "left-link.from=+1.5")
	golden(t, demo.Unequal+"-compare-unfit.txt", demo.Unequal, exitOK, "compare", "-", "--with", "right-link.from=-1.25", "--with", "right-link.from=+4")
	golden(t, demo.Unequal+"-rig.txt", demo.Unequal, exitOK, "rig", "--full", "-")
	golden(t, demo.WrongHole+"-find.txt", demo.WrongHole, exitOK, "find", "--full", "-")
	golden(t, "pedals-find-none.txt", "pedals", exitShort, "find", "--set", "left-link.length=300", "--vary", "left-pedal.horn.y=-64..-56:1", "-")
	golden(t, demo.Unequal+"-rods.txt", demo.Unequal, exitOK, "rods", "-")
	golden(t, demo.Dual+"-compare.txt", demo.Dual, exitOK, "compare", "-", "--with", "far-left-link.from=+1")
	golden(t, "lift-cables-effect.txt", "lift-cables", exitOK, "effect", "--full", "-")
	golden(t, "lift-cables-compare.txt", "lift-cables", exitOK, "compare", "-", "--with", "lift-up.conduit-from=+1", "--with", "lift-up.conduit-from=-2,lift-down.conduit-from=-2")
	golden(t, "lift-cables-rods.txt", "lift-cables", exitOK, "rods", "-")
	golden(t, "pedals-cable-cold.txt", "pedals-cable", exitShort, "check", "-", "--full", "--temperature", "-25")
	golden(t, demo.Taped+"-survey.txt", demo.Taped, exitOK, "survey", "-")
	golden(t, demo.Taped+"-diagnose.txt", demo.Taped, exitOK, "diagnose", "-")
}

// golden compares what a command prints of a demo with a file.
func golden(t *testing.T, file, kind string, status int, args ...string) {
	t.Run(file, func(t *testing.T) {
		got := fullfreeOnce(demoText(t, kind), args...)
		assert.Empty(t, got.err)
		assert.Equal(t, status, got.status)
		path := filepath.Join("..", "..", "testdata", "golden", file)
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(got.out), 0o644))
		}
		golden, err := os.ReadFile(path)
		require.NoError(t, err, "go test ./cmd/fullfree -update writes it")
		assert.Equal(t, string(golden), got.out)
	})
}
