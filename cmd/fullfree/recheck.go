package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/render/page"
	"fullfree/solve"
	"fullfree/solve/recheck"

	"github.com/spf13/pflag"
)

func recheckCommand() *command {
	return &command{
		name:  "recheck",
		usage: "OLD NEW [--disturbed NAME.END] [--full] [--json]\n      [--set DIMENSION=VALUE]",
		does:  "what a change makes void, to be done and signed again",
		more: `
Compares the file that was signed, OLD, with today's, NEW, by what they say and
do, and tells which lines of the rigging sheet are to be done again. OLD is
always the signed version, so that small steps add up: keep a copy of what was
signed.

It compares drawings, never work. What was opened and closed again, be it at the
same length, it is told by --disturbed: ROD.from or ROD.to, PART.pivot, or of a
cable CABLE.from, CABLE.to, CABLE.conduit-from or CABLE.conduit-to.

Any change or opened joint voids, whatever the figures, for its whole control
from hand to blade: the joint lines at both ends of what was touched, pins out,
tension, breakout, free play, full and free, sense, close up, and every
signature. Where anything of a rotor's collective or a pitch link was touched,
also track and what the maker asks (common practice, no source). Only measured
figures may stand, "unmoved by the drawing": a rod's length, a neutral, a stop,
a travel, a clearance that nothing moves by more than a tenth of what the file
allows it; one that it allows nothing, by nothing. Whoever signs decides.

Of an aircraft (both files are, each with the files that it names) every run
that a change reaches is void, to the hand and to the blade; others stand. Names
begin with the run's: --disturbed tail.boom-rod.to.

What was renamed counts as removed and added. Comments, titles and the order of
blocks change nothing. --full tells every figure then and now, and why each line
is void. --set changes NEW: "recheck FILE FILE --set link.length=243" tells what
a change would make void before it is made.

Exit status: 0 nothing changed or was disturbed; 1 something is to be done
again; 2 the two could not be compared.

Examples:
  fullfree new pedals > signed.hcl
  fullfree new pedals > pedals.hcl
  fullfree recheck signed.hcl pedals.hcl
  fullfree recheck signed.hcl pedals.hcl --disturbed left-link.from
  fullfree recheck signed.hcl pedals.hcl --full
  fullfree recheck pedals.hcl pedals.hcl --set left-link.length=297 --json
`,
		run: recheckFiles,
	}
}

func recheckFiles(c *command, std streams, args []string) int {
	flags := newFlags(c)
	disturbed := disturbedFlag(flags)
	full := flags.Bool("full", false, "every figure then and now, and why each line is void")
	asJSON := flags.Bool("json", false, "results for machines, at full precision")
	set := setFlag(flags)
	rest, goOn, status := parse(c, std, flags, args)
	switch {
	case !goOn:
		return status
	case len(rest) != 2:
		return std.fail(c, "two files are compared, the signed one first, not %d: fullfree recheck OLD NEW", len(rest))
	case rest[0] == "-" && rest[1] == "-":
		return std.fail(c, "standard input (\"-\") can be read only once")
	}
	changes, err := settings(*set)
	if err != nil {
		return std.fail(c, "%s", err)
	}
	old, oldFault := readied(std, rest[0], nil)
	now, nowFault := readied(std, rest[1], changes)
	told := func(faults ...error) bool {
		for i, fault := range faults {
			if fault != nil {
				status = std.problem(c, inFile(rest[i], len(rest), fault))
			}
		}
		return status != exitOK
	}
	if told(oldFault, nowFault) {
		return status
	}
	if err := twoKinds(old, now.Run, now.Name); err != nil {
		return std.problem(c, err)
	}
	opened, err := jointsNamed(now.Run, *disturbed)
	if err != nil {
		return std.fail(c, "%s", err)
	}
	before, oldFault := old.version()
	today, nowFault := now.version()
	if told(oldFault, nowFault) {
		return status
	}
	compared, err := recheck.Compare(before, today, opened)
	if err != nil {
		return std.problem(c, err)
	}
	var out bytes.Buffer
	opts := render.RecheckOptions{
		OldFile: old.Name, NewFile: now.Title(), OldHash: old.Hash(), NewHash: now.Hash(),
		OldRuns: old.runFiles(), NewRuns: now.runFiles(), Date: old.date(), Full: *full,
	}
	if *asJSON {
		opts.NewFile = now.Name
		err = machine.RecheckJSON(&out, compared, opts)
	} else {
		err = render.RecheckReport(&out, compared, opts)
	}
	if err != nil {
		return std.fail(c, "%s", linkage.Printable(err.Error()))
	}
	if !compared.Same() {
		status = exitShort
	}
	return std.print(c, out.Bytes(), status)
}

func disturbedFlag(flags *pflag.FlagSet) *[]string {
	return flags.StringArray("disturbed", nil, "what was opened and closed again, `NAME.END`: ROD.from, ROD.to,\nPART.pivot, JOINT.joint, or an end of a cable; in an aircraft RUN.NAME.END\n(repeatable)")
}

// readied reads a file that is to be compared, and compiles it.
func readied(std streams, name string, set []linkage.Setting) (*input, error) {
	in, err := open(std, name, set)
	if err != nil {
		return nil, err
	}
	return in, in.Ready()
}

// version judges what is to be compared.
func (in *input) version() (recheck.Version, error) {
	result, err := in.Check()
	if err != nil {
		return recheck.Version{}, err
	}
	return versionOf(result, in.Mechanism.Pinned()), nil
}

// versionOf is a judged run, or an aircraft, with the lines of its sheets.
func versionOf(result *solve.Result, pinned []solve.PinnedRod) recheck.Version {
	return recheck.Version{Run: result.Run.Name, Result: result, Lines: page.SheetLines(result, pinned)}
}

// runFiles are the files of the runs of an aircraft; none of a run by itself.
func (in *input) runFiles() []render.FileOf {
	if in.Run.Aircraft == nil {
		return nil
	}
	return in.Files()[1:]
}

// twoKinds tells of two files that can't be compared, since one is an aircraft's and the
// other, of which the run and its file are told, a single run's; nil where they are alike.
func twoKinds(old *input, now *linkage.Run, file string) error {
	if (old.Run.Aircraft == nil) == (now.Aircraft == nil) {
		return nil
	}
	aircraft, run := old.Name, file
	if old.Run.Aircraft == nil {
		aircraft, run = run, aircraft
	}
	return fmt.Errorf("%s is the file of an aircraft and %s that of a single run: compare an aircraft with an aircraft, or a run with a run", linkage.Printable(aircraft), linkage.Printable(run))
}

// sinceOf compares a run of a book with the file that was signed.
func sinceOf(std streams, run *page.BookRun, signed string, disturbed []string, output string) (*page.Since, error) {
	opened, err := jointsNamed(run.Result.Run, disturbed)
	if err != nil {
		return nil, err
	}
	old, err := readied(std, signed, nil)
	if err == nil {
		err = twoKinds(old, run.Result.Run, run.File)
	}
	if err != nil {
		return nil, err
	}
	if lost := old.overwrites(output); lost != "" {
		return nil, fmt.Errorf("-o %s", lost)
	}
	before, err := old.version()
	if err != nil {
		return nil, err
	}
	compared, err := recheck.Compare(before, versionOf(run.Result, run.Pinned), opened)
	if err != nil {
		return nil, err
	}
	return &page.Since{Comparison: compared, File: old.Filed(), Date: old.date(), Hash: old.Hash(), Runs: old.runFiles()}, nil
}

// sinceFault tells what is wrong with what a book is to be compared with; empty where
// nothing is.
func sinceFault(files []string, since string, given, disturbed bool) string {
	switch {
	case !given && disturbed:
		return "--disturbed goes with --since OLD, the file that was signed"
	case !given:
		return ""
	case since == "":
		return "--since wants the file that was signed: --since OLD"
	case len(files) > 1:
		return fmt.Sprintf("--since goes with one file, not %d", len(files))
	case since == "-" && files[0] == "-":
		return "standard input (\"-\") can be read only once"
	}
	return ""
}

// jointsNamed finds the joints that were opened, each once; the error tells of every name
// that is none.
func jointsNamed(run *linkage.Run, names []string) ([]recheck.Joint, error) {
	all := recheck.Joints(run, run.Name)
	var known []string
	at := map[string]int{}
	for i, j := range all {
		known, at[j.Name] = append(known, j.Name), i
	}
	var opened []recheck.Joint
	var wrong []string
	seen := map[string]bool{}
	for _, name := range names {
		name = strings.TrimSpace(name)
		i, ok := at[name]
		switch {
		case !ok:
			wrong = append(wrong, fmt.Sprintf("--disturbed %s: there is no such joint%s", linkage.Printable(name), jointMeant(run, name, known)))
		case !seen[name]:
			opened = append(opened, all[i])
		}
		seen[name] = true
	}
	if len(wrong) > 0 {
		return nil, errors.New(strings.Join(wrong, "\n"))
	}
	return opened, nil
}

// jointMeant tells which joint may have been meant by a name that none has: of an aircraft
// one whose run was left out, too.
func jointMeant(run *linkage.Run, name string, known []string) string {
	if run.Aircraft != nil {
		for _, k := range known {
			if strings.HasSuffix(k, "."+name) {
				return fmt.Sprintf("; did you mean %q?", k)
			}
		}
	}
	return calls.DidYouMean(name, known)
}

// date is when a file was last written, as a builder dates a drawing, of an aircraft the
// last of its files; empty for standard input.
func (in *input) date() string {
	if in.Name == "-" || in.info == nil {
		return ""
	}
	last := in.info.ModTime()
	if in.Run.Aircraft != nil {
		for _, m := range in.Run.Aircraft.Members {
			if info, err := os.Stat(m.Source.Name); err == nil && info.ModTime().After(last) {
				last = info.ModTime()
			}
		}
	}
	return last.Format(time.DateOnly)
}
