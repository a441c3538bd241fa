package main

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/demo"
	"fullfree/linkage"
)

// shells are those that completion is written for.
func shells() []string { return []string{"bash", "zsh", "fish"} }

func completionCommand() *command {
	return &command{
		name:  "completion",
		usage: "bash|zsh|fish",
		does:  "what a shell needs to complete what is typed",
		more: `
Writes a script to standard output, by which the shell completes commands, their
flags, the topics of the manual, the kinds of "new" and files that end in .hcl.
It stands for this program as it is: write it anew with a new one.

  bash: source it from ~/.bashrc
  zsh:  write it as _fullfree into a folder of $fpath, before compinit runs
  fish: write it as ~/.config/fish/completions/fullfree.fish

Examples:
  fullfree completion bash > fullfree.bash
  fullfree completion zsh > _fullfree
  fullfree completion fish > fullfree.fish
`,
		run: completion,
	}
}

func completion(c *command, std streams, args []string) int {
	rest, goOn, status := parse(c, std, newFlags(c), args)
	switch {
	case !goOn:
		return status
	case len(rest) != 1:
		return std.fail(c, "for which shell? there is %s", strings.Join(shells(), ", "))
	}
	script := map[string]func([]completed) string{"bash": bashScript, "zsh": zshScript, "fish": fishScript}[rest[0]]
	if script == nil {
		return std.fail(c, "there is none for %q%s", linkage.Printable(rest[0]), calls.DidYouMean(rest[0], shells()))
	}
	return std.print(c, []byte(script(allCompleted())), exitOK)
}

// completed is what a shell is told of a command.
type completed struct {
	name, does string
	flags      []completedFlag
	// words may follow it; files says that files of runs may.
	words []string
	files bool
}

// completedFlag is a flag by its long name, and the short one where it has such; value
// says that a value follows it.
type completedFlag struct {
	long, short string
	value       bool
}

// flagLine is the first line of a flag in a command's help.
var flagLine = regexp.MustCompile(`(?m)^  (?:-(\w), )?--([a-z-]+)( \S+)?$`)

// allCompleted lists every command, its flags as its own help tells them.
func allCompleted() []completed {
	following := map[string][]string{"new": append(demo.Kinds(), demo.More()...), "help": append(commandNames(), topics()...), "completion": shells(), "version": {}}
	var list []completed
	for _, c := range commands() {
		words, other := following[c.name]
		told := completed{name: c.name, does: c.does, words: words, files: !other}
		var help bytes.Buffer
		c.run(c, streams{strings.NewReader(""), &help, &help}, []string{"--help"})
		_, flags, _ := strings.Cut(help.String(), "\nFlags:\n")
		for _, m := range flagLine.FindAllStringSubmatch(flags, -1) {
			told.flags = append(told.flags, completedFlag{m[2], m[1], m[3] != ""})
		}
		list = append(list, told)
	}
	return list
}

// flagWords are a command's flags as they are typed.
func (c completed) flagWords() string {
	var words []string
	for _, f := range c.flags {
		if f.short != "" {
			words = append(words, "-"+f.short)
		}
		words = append(words, "--"+f.long)
	}
	return strings.Join(append(words, "--help"), " ")
}

// cases are the branches of a shell's "case" over the commands: what it does with the
// flags of each, or with the words that may follow those that take no file.
func cases(list []completed, flags bool, line func(words string) string) string {
	var b strings.Builder
	for _, c := range list {
		switch {
		case flags:
			fmt.Fprintf(&b, "      %s) %s ;;\n", c.name, line(c.flagWords()))
		case !c.files:
			fmt.Fprintf(&b, "      %s) %s ;;\n", c.name, line(strings.Join(c.words, " ")))
		}
	}
	return b.String()
}

// bashScript completes in bash. Names are read line by line, so that files with spaces
// in their names stay whole.
func bashScript(list []completed) string {
	offered := func(words string) string { return `offered="` + words + `"` }
	return `# Completion of fullfree in bash, written by "fullfree completion bash".
_fullfree() {
  local word="${COMP_WORDS[COMP_CWORD]}" before="${COMP_WORDS[COMP_CWORD-1]}" offered="" found
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    offered="` + strings.Join(commandNames(), " ") + `"
  elif [[ "$word" == -* ]]; then
    case "${COMP_WORDS[1]}" in
` + cases(list, true, offered) + `    esac
  elif [[ "$before" == -o || "$before" == --output || "$before" == --draw ]]; then
    compopt -o filenames 2>/dev/null
    while IFS= read -r found; do COMPREPLY+=("$found"); done < <(compgen -f -- "$word")
    return
  else
    case "${COMP_WORDS[1]}" in
` + cases(list, false, offered) + `      *)
        compopt -o filenames 2>/dev/null
        while IFS= read -r found; do COMPREPLY+=("$found"); done < <(compgen -f -X '!*.hcl' -- "$word"; compgen -d -- "$word")
        return ;;
    esac
  fi
  while IFS= read -r found; do COMPREPLY+=("$found"); done < <(compgen -W "$offered" -- "$word")
}
complete -F _fullfree fullfree
`
}

// zshScript completes in zsh, sourced or found in $fpath.
func zshScript(list []completed) string {
	offered := func(words string) string {
		if words == "" {
			return ":"
		}
		return "compadd -- " + words
	}
	return `#compdef fullfree
# Completion of fullfree in zsh, written by "fullfree completion zsh".
_fullfree() {
  if (( CURRENT == 2 )); then
    compadd -- ` + strings.Join(commandNames(), " ") + `
  elif [[ "$PREFIX" == -* ]]; then
    case "$words[2]" in
` + cases(list, true, offered) + `    esac
  elif [[ "$words[CURRENT-1]" == (-o|--output|--draw) ]]; then
    _files
  else
    case "$words[2]" in
` + cases(list, false, offered) + `      *) _files -g '*.hcl' ;;
    esac
  fi
}
if [[ "$funcstack[1]" == _fullfree ]]; then
  _fullfree "$@"
else
  compdef _fullfree fullfree
fi
`
}

// fishScript completes in fish.
func fishScript(list []completed) string {
	quoted := func(words string) string { return "'" + strings.ReplaceAll(words, "'", `\'`) + "'" }
	var b strings.Builder
	b.WriteString("# Completion of fullfree in fish, written by \"fullfree completion fish\".\ncomplete -c fullfree -f\n")
	for _, c := range list {
		fmt.Fprintf(&b, "complete -c fullfree -n __fish_use_subcommand -a %s -d %s\n", c.name, quoted(c.does))
		seen := quoted("__fish_seen_subcommand_from " + c.name)
		for _, f := range c.flags {
			short, value := "", ""
			if f.short != "" {
				short = " -s " + f.short
			}
			if f.value {
				value = " -r"
			}
			if f.long == "output" || f.long == "draw" {
				value = " -r -F"
			}
			fmt.Fprintf(&b, "complete -c fullfree -n %s%s -l %s%s\n", seen, short, f.long, value)
		}
		switch {
		case c.files:
			fmt.Fprintf(&b, "complete -c fullfree -n %s -k -a %s\n", seen, quoted("(__fish_complete_suffix .hcl)"))
		case len(c.words) > 0:
			fmt.Fprintf(&b, "complete -c fullfree -n %s -a %s\n", seen, quoted(strings.Join(c.words, " ")))
		}
	}
	return b.String()
}
