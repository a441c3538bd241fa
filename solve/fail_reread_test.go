package solve_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// What is left when something is taken away is compared here with what the
// reader and the solver say of the file without it: its block cut out, and then
// block after block that refers to what is gone, as the reader's own refusals
// point at them.

func demoNames(t testing.TB) (names []string) {
	t.Helper()
	files, err := filepath.Glob("../demo/*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		names = append(names, strings.TrimSuffix(filepath.Base(f), ".hcl"))
	}
	return names
}

// demoText is the text of a demo, mirrored sides written out, so that a block can be
// cut out without what is its mirror image. The rotor's controls are each held in one place: every
// sweep more is one of a whole turn.
func demoText(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "demo", name+".hcl"))
	require.NoError(t, err)
	text, err = linkage.WrittenOut(&linkage.Source{Name: name, Text: text})
	require.NoError(t, err)
	if name == "rotor" {
		text = regexp.MustCompile(`(?m)^  held +=.*$`).ReplaceAll(text, []byte("  held = [0]"))
	}
	return string(text)
}

var blockHead = regexp.MustCompile(`^([a-z-]+) `)

// fileBlock is a block at the top of a file.
type fileBlock struct {
	kind, name  string
	first, last int // lines, from 0
}

func blocksOf(text string) (list []fileBlock) {
	depth, first := 0, 0
	for i, line := range strings.Split(text, "\n") {
		code, _, _ := strings.Cut(line, "#")
		if depth == 0 && blockHead.MatchString(line) {
			first = i
		}
		opens, closes := strings.Count(code, "{"), strings.Count(code, "}")
		depth += opens - closes
		if depth == 0 && closes > 0 {
			head := strings.SplitN(strings.Split(text, "\n")[first], "\"", 3)
			b := fileBlock{kind: strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(head[0]), "{")), first: first, last: i}
			if len(head) > 1 {
				b.name = head[1]
			}
			list = append(list, b)
		}
	}
	return list
}

// withoutBlocks cuts blocks out of a file.
func withoutBlocks(text string, cut func(b fileBlock) bool) string {
	lines := strings.Split(text, "\n")
	for _, b := range slices.Backward(blocksOf(text)) {
		if cut(b) {
			lines = slices.Delete(lines, b.first, b.last+1)
		}
	}
	return strings.Join(lines, "\n")
}

func cutNamed(text, kind, name string) string {
	return withoutBlocks(text, func(b fileBlock) bool { return b.kind == kind && b.name == name })
}

// wherePlaced are the lines that say where something is held or watched, without
// which everything moves the same.
var wherePlaced = regexp.MustCompile(`(?m)^\s*(grip|seen-at)\s*=.*\n`)

// plain is a file written out, without what is required, pinned and measured and where
// things are held.
func plain(text string) string {
	if out, err := linkage.WrittenOut(&linkage.Source{Name: "whole.hcl", Text: []byte(text)}); err == nil {
		text = string(out)
	}
	text = wherePlaced.ReplaceAllString(text, "")
	return withoutBlocks(text, func(b fileBlock) bool {
		return !slices.Contains([]string{"run", "dims", "fixed", "part", "rod", "joint", "rotor", "control", "output", "stop", "cable", "pair"}, b.kind)
	})
}

// readable cuts blocks until the file can be read: those at which the reader
// points. It is nil where no control is left.
func readable(t *testing.T, text string) (string, *linkage.Run) {
	t.Helper()
	for range 100 {
		run, err := linkage.Read(&linkage.Source{Name: "cut.hcl", Text: []byte(text)})
		if err == nil {
			return text, run
		}
		var faults *linkage.Faults
		require.True(t, errors.As(err, &faults))
		if !slices.ContainsFunc(blocksOf(text), func(b fileBlock) bool { return b.kind == "control" }) {
			return text, nil
		}
		was := text
		text = withoutBlocks(text, func(b fileBlock) bool {
			return b.kind != "run" && slices.ContainsFunc(faults.List, func(f linkage.Fault) bool {
				return f.Span.Line-1 >= b.first && f.Span.Line-1 <= b.last
			})
		})
		require.NotEqual(t, was, text, "nothing to cut: %v", err)
	}
	require.FailNow(t, "never readable", text)
	return "", nil
}

var looseSaid = regexp.MustCompile(`"([^"]+)"`)

// closes compiles a file; where parts are loose it returns their names, as the
// refusal tells them.
func closes(t *testing.T, run *linkage.Run) (m *solve.Mechanism, loose []string) {
	t.Helper()
	m, err := solve.Compile(run)
	if err == nil {
		return m, nil
	}
	require.Contains(t, err.Error(), "left loose with the controls held")
	var faults *linkage.Faults
	require.True(t, errors.As(err, &faults))
	for _, f := range faults.List {
		said, _, _ := strings.Cut(f.Says, "left loose")
		for _, name := range looseSaid.FindAllStringSubmatch(said, -1) {
			loose = append(loose, name[1])
		}
	}
	require.NotEmpty(t, loose, err.Error())
	return nil, loose
}

// letSecondPathsDrive is the file with its second paths driving.
func letSecondPathsDrive(text string) string {
	text = regexp.MustCompile(`(?m)^ *second-path *= *true.*\n`).ReplaceAllString(text, "")
	return regexp.MustCompile(`(?m)^ *play *=.*\n`).ReplaceAllString(text, "")
}

func TestFailAgainstTheFileWithoutIt(t *testing.T) {
	var texts []string
	for _, name := range demoNames(t) {
		texts = append(texts, plain(demoText(t, name)))
	}
	for _, text := range append(texts, woundPair, conduitPair) {
		f := failuresOnce(t, text)
		name := f.Run.Name
		for i := range f.Cases {
			c := &f.Cases[i]
			if c.How != solve.Parted {
				continue
			}
			kind, gone := "rod", ""
			switch e := c.Element; {
			case e.Rod != nil:
				gone = e.Rod.Name
			case e.Cable != nil:
				kind, gone = "cable", e.Cable.Name
			case e.Joint != nil:
				kind, gone = "joint", e.Joint.Name
			case e.Pivot != nil:
				kind, gone = "part", e.Pivot.Name
			default:
				kind, gone = "stop", e.Stop.Name
			}
			t.Run(name+" without "+gone, func(t *testing.T) {
				againstTheRest(t, f.Run, c, cutNamed(text, kind, gone))
			})
		}
	}
}

// againstTheRest compares a case with the file without what is gone; filed is the
// run with it.
func againstTheRest(t *testing.T, filed *linkage.Run, c *solve.Failure, text string) {
	whole := text
	text, run := readable(t, text)
	hanging := map[string]bool{}
	for _, l := range c.Loose {
		hanging[l.Part.Name] = l.Why != solve.Unbolted
	}
	if run == nil {
		for _, k := range c.Controls {
			require.True(t, k.Gone, k.Control.Name)
		}
		return
	}
	m, loose := closes(t, run)
	if loose != nil && strings.Contains(text, "second-path") {
		driving := letSecondPathsDrive(text)
		if _, r := readable(t, driving); r != nil {
			if n, still := closes(t, r); n != nil {
				m, loose, text, run = n, still, driving, r
				require.NotEmpty(t, c.Carried)
			}
		}
	} else {
		require.Empty(t, c.Carried)
	}
	for _, name := range loose {
		require.Contains(t, hanging, name)
		againstTheRange(t, c, text, name)
	}
	for name, own := range hanging {
		if own && m != nil {
			require.NotContains(t, text, "part \""+name+"\"", "it holds by itself")
		}
	}
	for m == nil { // what isn't loose goes on
		text = withoutBlocks(text, func(b fileBlock) bool { return b.kind == "part" && slices.Contains(loose, b.name) })
		if text, run = readable(t, text); run == nil {
			return
		}
		if m, loose = closes(t, run); m == nil {
			for _, name := range loose {
				require.Contains(t, hanging, name)
			}
		}
	}
	if len(c.OneWay) > 0 {
		againstOneWay(t, filed, c, m, run, whole)
		return
	}
	againstOverCenter(t, filed, c, m, run)
	followed := map[string]bool{}
	for _, control := range run.Controls {
		w, err := m.Sweep(control, othersAtNeutral(run, control))
		require.NoError(t, err)
		for _, k := range c.Controls {
			if k.Control.Name == control.Name {
				require.False(t, k.Gone)
				nearf(t, w.Low, k.Left[0], exact, "%s low", k.Control.Name)
				nearf(t, w.High, k.Left[1], exact, "%s high", k.Control.Name)
				followed[k.Control.Name] = true
			}
		}
		compare := func(name string, e solve.Extent) {
			for _, r := range c.Reaches {
				if r.Control.Name == control.Name && r.Name == name {
					nearf(t, e.Least, r.Left[0], 1e-9, "%s with %s, least", name, control.Name)
					nearf(t, e.Most, r.Left[1], 1e-9, "%s with %s, most", name, control.Name)
					require.True(t, r.Follows || e.Most-e.Least < 1e-4, name)
					followed[control.Name+" "+name] = true
				}
			}
		}
		for _, p := range w.Parts {
			compare(p.Name, p.Extent)
		}
		for _, o := range w.Outputs {
			compare(o.Output.Name, o.Extent)
		}
	}
	for _, k := range c.Controls {
		require.Equal(t, !followed[k.Control.Name], k.Gone, k.Control.Name)
	}
	for _, r := range c.Reaches {
		if r.Follows {
			require.True(t, followed[r.Control.Name+" "+r.Name], "%s follows %s", r.Name, r.Control.Name)
		}
	}
}

// lastOf is how the control itself ends: past stops that hold it not.
func lastOf(e solve.End) solve.End {
	for e.Past != nil {
		e = *e.Past
	}
	return e
}

// overCenter tells by control and side how the travels of a run that is checked end
// on center, or have a dead center inside. Only is the places, as endPlace writes
// them, that are looked at; nil: all.
func overCenter(r *solve.Result, only map[string]bool, inside ...*linkage.Control) map[string]bool {
	over := map[string]bool{}
	for _, s := range r.Sweeps {
		for side, e := range s.Ends {
			if only != nil && !only[endPlace(s, side)] {
				continue
			}
			last := lastOf(e)
			if last.Cause == solve.ByToggle || last.Cause == solve.ByChangePoint {
				over[fmt.Sprintf("%s ends on center, side %d", s.Control.Name, side)] = true
			}
			for _, k := range s.Critical {
				pulled := last.Cause == solve.ByCable && k.Kind == solve.DeadCenter && math.Abs(k.At) < math.Abs(last.At)
				known := slices.ContainsFunc(inside, func(c *linkage.Control) bool { return c.Name == s.Control.Name && k.At >= c.From && k.At <= c.To })
				if !known && (k.At >= 0) == (side == 1) && (k.Margin < 0 || pulled) {
					over[fmt.Sprintf("%s has a dead center inside, side %d", s.Control.Name, side)] = true
				}
			}
		}
	}
	return over
}

func endPlace(s *solve.Sweep, side int) string {
	place := fmt.Sprintf("%s %d", s.Control.Name, side)
	for _, h := range s.Held {
		place += fmt.Sprintf(" %s=%v", h.Control.Name, h.At)
	}
	return place
}

// openPlaces lists where nothing ends the travel, as far as is explored.
func openPlaces(r *solve.Result) map[string]bool {
	open := map[string]bool{}
	for _, s := range r.Sweeps {
		for side, e := range s.Ends {
			open[endPlace(s, side)] = lastOf(e).Cause == solve.ByLimit
		}
	}
	return open
}

// filedBare is the check of a run as filed without its requirements, which every case of that
// run is compared with.
var filedBare struct {
	run    *linkage.Run
	result *solve.Result
}

func bareResult(t *testing.T, filed *linkage.Run) *solve.Result {
	t.Helper()
	if filedBare.run != filed {
		m, err := solve.Compile(edited(t, filed, linkage.Bare()))
		require.NoError(t, err)
		filedBare.result, err = m.Check()
		require.NoError(t, err)
		filedBare.run = filed
	}
	return filedBare.result
}

// againstOverCenter compares whether a case lets the run go over center with a check
// of the file without what is gone, run as it is and, where that opens a side, with
// the control turned all the way round.
func againstOverCenter(t *testing.T, filed *linkage.Run, c *solve.Failure, m *solve.Mechanism, run *linkage.Run) {
	t.Helper()
	whole := bareResult(t, filed)
	left, err := m.Check()
	require.NoError(t, err)
	was, within, beyond := overCenter(whole, nil), false, false
	for what := range overCenter(left, nil) {
		within = within || !was[what]
	}
	opened, shut, anyOpened := map[string]bool{}, openPlaces(whole), false
	for place, open := range openPlaces(left) {
		before, known := shut[place]
		opened[place] = open && known && !before
		anyOpened = anyOpened || opened[place]
	}
	edits := []linkage.Edit{linkage.Bare()}
	for _, k := range run.Controls {
		most := 360.0
		if k.Of.Motion == linkage.Slides {
			most = run.Size()
		}
		edits = append(edits, linkage.Explore(k, math.Min(k.From, -most), math.Max(k.To, most)))
	}
	farther, err := solve.Compile(edited(t, run, edits...))
	require.NoError(t, err)
	if anyOpened { // else no place of it is looked at
		r, err := farther.Check()
		require.NoError(t, err)
		for what := range overCenter(r, opened, filed.Controls...) {
			beyond = beyond || !was[what]
		}
	}
	require.NotNil(t, c.OverCenter)
	require.Equal(t, within || beyond, *c.OverCenter)
	require.Equal(t, within || beyond, len(c.OnCenter) > 0, "and it is told where")
	if *c.OverCenter {
		require.Equal(t, solve.Dangerous, c.Severity)
	}
	for _, k := range c.OnCenter {
		outside := k.At < k.Control.From || k.At > k.Control.To
		require.Equal(t, outside, k.Beyond, "%s at %v", k.Control.Name, k.At)
	}
}

// againstOneWay compares the two sides of the travel with the run without either
// cable of the pair, and with one in which the cable that is left acts alone,
// taken to be kept taut by a spring.
func againstOneWay(t *testing.T, filed *linkage.Run, c *solve.Failure, without *solve.Mechanism, run *linkage.Run, text string) {
	require.Len(t, c.OneWay, 1)
	one := c.OneWay[0]
	text = withoutBlocks(text, func(b fileBlock) bool {
		return b.kind == "pair" || b.kind == "cable" && b.name != one.Cable.Name && slices.ContainsFunc(one.Cable.Pair.Cables[:], func(k *linkage.Cable) bool { return k.Name == b.name })
	})
	head := "cable \"" + one.Cable.Name + "\" {\n"
	var pulled *solve.Mechanism
	var pulledRun *linkage.Run
	for _, side := range []string{"plus", "minus"} {
		left := read(t, replaceOnce(t, text, head, head+"  spring = \""+side+"\"\n"))
		for _, k := range left.Cables {
			if k.Name == one.Cable.Name {
				k.Grown -= one.Cable.Pair.Pretension / k.Stiffness
			}
		}
		if m, err := solve.Compile(left); err == nil {
			require.Nil(t, pulled, "one side is right")
			pulled, pulledRun = m, left
		}
	}
	require.NotNil(t, pulled)
	sweep := func(m *solve.Mechanism, run *linkage.Run) *solve.Sweep {
		for _, k := range run.Controls {
			if k.Name == one.Control.Name {
				w, err := m.Sweep(k, nil)
				require.NoError(t, err)
				return w
			}
		}
		require.FailNow(t, "no control")
		return nil
	}
	on, off := sweep(pulled, pulledRun), sweep(without, run)
	isOver := func(s *solve.Sweep, side int) bool {
		return s.Ends[side].Cause == solve.ByToggle || s.Ends[side].Cause == solve.ByChangePoint ||
			slices.ContainsFunc(s.Critical, func(k solve.Critical) bool { return k.Margin < 0 && (k.At >= 0) == (side == 1) })
	}
	bare := edited(t, filed, linkage.Bare())
	whole, err := solve.Compile(bare)
	require.NoError(t, err)
	was, newly := sweep(whole, bare), false
	for side, s := range []*solve.Sweep{off, on} {
		if one.Side == "minus" {
			s = []*solve.Sweep{on, off}[side]
		}
		newly = newly || isOver(s, side) && !isOver(was, side)
	}
	require.Equal(t, newly, *c.OverCenter, "each side as it is left")
	var k solve.ControlLeft
	for _, left := range c.Controls {
		if left.Control == one.Control {
			k = left
		}
	}
	end := on.High
	if one.Side == "plus" {
		near(t, on.High, k.Left[1], exact, "on the side to which it pulls")
		near(t, off.Low, k.Left[0], exact, "on the other")
	} else {
		end = on.Low
		near(t, on.Low, k.Left[0], exact, "on the side to which it pulls")
		near(t, off.High, k.Left[1], exact, "on the other")
	}
	for _, l := range c.Loose {
		for side, at := range []*float64{l.Low, l.High} {
			if l.Taut[side] != nil {
				require.Equal(t, one.Cable, l.Taut[side])
				nearAtf(t, solveAt(t, on, 0).Travel(partNamed(t, pulledRun, l.Part.Name)), at, 1e-9, "%s where the cable is taut", l.Part.Name)
			}
		}
	}
	for _, o := range on.Outputs {
		r := reachOf(t, c, one.Control.Name, o.Output.Name)
		for i := range 101 {
			v := solveAt(t, on, end*float64(i)/100).Reading(o.Output)
			require.True(t, v >= r.Left[0]-1e-9 && v <= r.Left[1]+1e-9, "%s reads %v, not in %v", o.Output.Name, v, r.Left)
		}
		at := []float64{solveAt(t, on, 0).Reading(o.Output), solveAt(t, on, end).Reading(o.Output)}
		slices.Sort(at)
		near(t, at[0], r.Left[0], 1e-9, "no farther")
		near(t, at[1], r.Left[1], 1e-9, "no farther")
	}
}

// againstTheRange compares the range of a loose part with that of a control put
// in its place.
func againstTheRange(t *testing.T, c *solve.Failure, text, name string) {
	var l solve.LoosePart
	for _, k := range c.Loose {
		if k.Part.Name == name {
			l = k
		}
	}
	if l.Why != solve.Ranged {
		return
	}
	probe := "control \"loose-probe\" {\n  of = " + name + "\n  from = -180\n  to = 180\n}\n"
	if l.Unit != "deg" {
		probe = "control \"loose-probe\" {\n  of = " + name + "\n  from = -1000\n  to = 1000\n}\n"
	}
	run, err := linkage.Read(&linkage.Source{Name: "cut.hcl", Text: []byte(text + "\n" + probe)})
	if err != nil && strings.Contains(err.Error(), "which is no control's part") {
		return // a part that rides on another can't be moved by a control of its own
	}
	require.NoError(t, err)
	m, err := solve.Compile(run)
	if err != nil {
		return // something else is loose by itself
	}
	moved := run.Controls[len(run.Controls)-1]
	w, err := m.Sweep(moved, othersAtNeutral(run, moved))
	require.NoError(t, err)
	for side, at := range []*float64{l.Low, l.High} {
		if l.Taut[side] != nil {
			continue // in againstOneWay
		}
		if w.Ends[side].Cause == solve.ByLimit {
			require.Nil(t, at, name)
			continue
		}
		if l.Unit == "deg" || w.Ends[side].Cause == solve.ByStop {
			nearAtf(t, w.Ends[side].At, at, 1e-9, "%s, side %d", name, side)
		}
	}
}
