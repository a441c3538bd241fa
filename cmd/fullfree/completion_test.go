package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typed are lines as they are typed so far, and what a shell should offer for their
// last word, in any order.
var typed = []struct{ line, offers string }{
	{"fullfree ch", "check"},
	{"fullfree re", "report recheck"},
	{"fullfree check --j", "--json"},
	{"fullfree draw -", "-o --output --view --charts --full-size --paper --control --held --set --only --help"},
	{"fullfree version --", "--help"},
	{"fullfree new throttle-w", "throttle-wrong-hole"},
	{"fullfree new pedals-d", "pedals-dual"},
	{"fullfree help second", "second-path"},
	{"fullfree help s", "sweep show serve survey sense settings second-path status"},
	{"fullfree completion ", "bash zsh fish"},
	{"fullfree version ", ""},
	{"fullfree check my", "my run.hcl|my-folder"},
	{"fullfree check throttle.hcl no", ""},
	{"fullfree draw x.hcl -o no", "notes.txt"},
}

// bash offers for what is typed what it should, by its own means.
func TestCompletionInBash(t *testing.T) {
	script := fullfree("", "completion", "bash")
	require.Equal(t, exitOK, script.status)
	bash, err := exec.LookPath("bash")
	if err != nil {
		for _, want := range []string{"check) offered=\"--json", "complete -F _fullfree fullfree", " throttle-wrong-hole", "!*.hcl"} {
			assert.Contains(t, script.out, want)
		}
		return
	}
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("my run.hcl", nil, 0o644))
	require.NoError(t, os.WriteFile("notes.txt", nil, 0o644))
	require.NoError(t, os.Mkdir("my-folder", 0o755))
	for _, try := range typed {
		words := strings.Split(try.line, " ")
		asks := "\nCOMP_WORDS=('" + strings.Join(words, "' '") + "')\nCOMP_CWORD=$((${#COMP_WORDS[@]} - 1))\n_fullfree\nfor each in \"${COMPREPLY[@]}\"; do echo \"$each\"; done\n"
		command := exec.Command(bash, "--norc", "--noprofile", "-u", "-c", script.out+asks)
		out, err := command.CombinedOutput()
		require.NoError(t, err, string(out))
		want := strings.Fields(try.offers)
		if strings.Contains(try.offers, "|") {
			want = strings.Split(try.offers, "|")
		}
		got := strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
		if len(out) == 0 {
			got = nil
		}
		assert.ElementsMatch(t, want, got, try.line)
	}
}

// The other shells are told the same of every command: its flags, and what may follow.
func TestCompletionTellsEveryFlag(t *testing.T) {
	zsh, fish := fullfree("", "completion", "zsh"), fullfree("", "completion", "fish")
	assert.Equal(t, exitOK, zsh.status+fish.status)
	for _, c := range usages {
		assert.Contains(t, zsh.out, "      "+c.name+") compadd -- ")
		assert.Contains(t, fish.out, "-n __fish_use_subcommand -a "+c.name+" -d '")
		_, line, _ := strings.Cut(zsh.out, "      "+c.name+") compadd -- ")
		line, _, _ = strings.Cut(line, "\n")
		for _, flag := range strings.Fields(c.flags) {
			assert.Contains(t, strings.Fields(line), "--"+flag, c.name)
			assert.Regexp(t, `-n '__fish_seen_subcommand_from `+c.name+`'( -s \w)? -l `+flag, fish.out)
		}
	}
	for _, script := range []string{zsh.out, fish.out} {
		for _, word := range []string{"throttle-wrong-hole", "second-path", ".hcl", "bash zsh fish"} {
			assert.Contains(t, script, word)
		}
	}
}

func TestCompletionFaults(t *testing.T) {
	for _, args := range [][]string{{"completion"}, {"completion", "bash", "zsh"}} {
		assert.Equal(t, outcome{exitFailed, "", "fullfree completion: for which shell? there is bash, zsh, fish\n"}, fullfree("", args...))
	}
	assert.Equal(t, outcome{exitFailed, "", "fullfree completion: there is none for \"bish\"; did you mean \"bash\"?\n"}, fullfree("", "completion", "bish"))
}
