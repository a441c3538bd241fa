package main

import (
	"runtime/debug"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
)

// version is what this source calls itself; it stands on every drawing.
const version = calls.Version

// shownRevision is how many digits of a revision tell it apart.
const shownRevision = 12

func versionCommand() *command {
	return &command{
		name: "version",
		does: "which fullfree this is",
		more: `
Example:
  fullfree version
`,
		run: func(c *command, std streams, args []string) int {
			rest, goOn, status := parse(c, std, newFlags(c), args)
			switch {
			case !goOn:
				return status
			case len(rest) > 0:
				return std.fail(c, "nothing follows it, but there is %q", linkage.Printable(rest[0]))
			}
			return std.print(c, []byte(versionLine()+"\n"), exitOK)
		},
	}
}

// versionLine names the version, and what it was built from where the build
// tells.
func versionLine() string {
	line := "fullfree " + version
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return line
	}
	line += " " + info.GoVersion
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			line += " " + s.Value[:min(len(s.Value), shownRevision)]
		case s.Key == "vcs.modified" && s.Value == "true":
			line += " changed"
		}
	}
	return line
}
