package calls

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/page"
	"fullfree/solve"
)

// Files are the texts that a bench works on: files of a machine, or texts that a page
// holds in its memory.
type Files interface {
	// Read returns the text of a file. The error tells a person why there is none.
	Read(name string) ([]byte, error)
	// Beside opens what the file of an aircraft names.
	Beside(name string) linkage.Opener
	// Replace writes files anew, all of them or none: none, and ErrChanged, where one
	// isn't any more what it was. It returns what of the old files could not be kept, and
	// of which file the error is.
	Replace(files []Rewritten) (lost []string, failed string, err error)
}

// ErrChanged is the error of Files that aren't any more what they were.
var ErrChanged = errors.New("the file has changed")

// Bench answers what a page asks of one file: the file as it last read well, and what
// was tried lately. What is tried belongs to the page, which sends all of it with every
// call; here it is only remembered for speed. One call at a time.
type Bench struct {
	files Files
	name  string
	// Progress, which may be nil, is told how far an answer is that takes its time.
	Progress func(done, of int)

	// disk tells the file as last seen, with those that it named, of an aircraft; empty
	// where it couldn't be read.
	disk  string
	named []string
	// trouble is what is wrong with it since it last read well; nil: nothing.
	trouble error
	hash    string // of the file as it last read well; of an aircraft that of all its files together
	filed   *tried
	lately  []*tried // most recent first
	// dropped says whether the answer being made is still wanted; nil: it is.
	dropped func() bool
}

const (
	// mostTried is how many settings are remembered: what one goes to and fro
	// between on the workbench.
	mostTried = 8
	// mostSwept is how many sweeps of one setting are: of each control, with the
	// others here and there.
	mostSwept = 8
	// mostBanded is of how many dimensions a run may be so that how sure the
	// answers are is told at once; the time for that grows as their square.
	mostBanded = 150
)

// Open reads a file and judges it.
func Open(files Files, name string) (*Bench, error) {
	b := &Bench{files: files, name: name}
	if b.look(); b.trouble != nil {
		return nil, b.trouble
	}
	return b, nil
}

// Run is the run as filed.
func (b *Bench) Run() *linkage.Run { return b.filed.in.Run }

// Remembered is how many settings besides the filed one are remembered.
func (b *Bench) Remembered() int { return len(b.lately) }

// look reads the file where it isn't as it was last seen. Where something is
// wrong with it, all else stays as it was when it last read well.
func (b *Bench) look() {
	text, err := b.files.Read(b.name)
	if err != nil {
		b.disk, b.trouble = "", err
		return
	}
	in := &Input{Name: b.name, Beside: b.files.Beside(b.name)}
	if stateOf(text, b.named, in.Beside) == b.disk {
		return
	}
	if HashOf(text) == b.hash { // a run by itself, put back
		b.disk, b.named, b.trouble = b.hash, nil, nil
		return
	}
	filed := &tried{in: in, unwanted: b.unwanted}
	if err = in.Read(text); err == nil {
		err = in.Adjust()
	}
	b.disk, b.named = stateOf(text, in.Opened, in.Open), in.Opened
	if err == nil {
		err = filed.judge()
	}
	if b.trouble = err; err != nil {
		return
	}
	hash := HashOf(text)
	if in.Run.Aircraft != nil {
		hash = in.Together()
	}
	b.hash, b.filed, b.lately = hash, filed, nil
}

// stateOf tells what is read apart: the text of a file, and those that it names as they are;
// of a run by itself its hash.
func stateOf(text []byte, names []string, open linkage.Opener) string {
	state := HashOf(text)
	for _, name := range names {
		src, err := open(name)
		if err != nil {
			state += " " + err.Error()
			continue
		}
		state += " " + HashOf(src.Text)
	}
	return state
}

// faultText is an error as it is told to people; empty where there is none.
func faultText(err error) string {
	if err == nil {
		return ""
	}
	var faults *linkage.Faults
	if errors.As(err, &faults) {
		return strings.TrimSuffix(faults.Error(), "\n")
	}
	return err.Error()
}

// tried is a setting of the run, judged.
type tried struct {
	key     string // empty: as filed
	in      *Input
	turned  []render.Turned
	stops   []*linkage.Stop // those that aren't as filed
	varied  []varied        // what varies, and isn't as filed
	writes  []page.Written
	result  *solve.Result
	fault   string // why it can't be judged; then there is no result
	stopped bool   // it was given up, and is none
	sure    bool   // how sure the answers are has been added to the result
	swept   []swept
	// unwanted says whether what is being reckoned is to be given up.
	unwanted func() bool
}

// unwanted reports whether nobody waits any more for the answer being made.
func (b *Bench) unwanted() bool { return b.dropped != nil && b.dropped() }

// swept is a sweep that is remembered.
type swept struct {
	key   string
	sweep *solve.Sweep
	err   error
}

// judge judges the run as it is set.
func (t *tried) judge() error {
	err := t.in.Compile()
	if err != nil {
		return err
	}
	t.in.Mechanism.StopWhen(t.unwanted)
	if t.result, err = t.in.Check(); err != nil {
		return err
	}
	if t.in.Mechanism.Stopped() {
		return solve.ErrStopped
	}
	return nil
}

// addBands adds how sure the answers are, where that isn't left out.
func (t *tried) addBands() error {
	if t.sure || !t.banded() {
		return nil
	}
	t.in.Mechanism.StopWhen(t.unwanted)
	if err := t.in.Mechanism.AddBands(t.result, t.in.AllSurveys()...); err != nil {
		return err
	}
	if t.in.Mechanism.Stopped() {
		return solve.ErrStopped
	}
	t.sure = true
	return nil
}

func (t *tried) banded() bool { return len(t.in.Run.Dimensions()) <= mostBanded }

func (t *tried) variant() render.Variant {
	return render.Variant{Name: render.AsFiled, Turned: t.turned, Result: t.result}
}

// setting returns the run set as the page asks, judged. The error tells what
// the page asks that there isn't.
func (b *Bench) setting(ask *Asked) (*tried, error) {
	if err := ask.check(b.filed.in.Run); err != nil {
		return nil, err
	}
	t, key := b.filed, ask.key(b.filed.in.Run)
	if key != "" {
		same := func(t *tried) bool { return t.key == key }
		t = recall(&b.lately, mostTried, same, func() *tried { return b.judged(key, ask) })
	}
	if t.fault == "" && !ask.Lean {
		if err := t.addBands(); errors.Is(err, solve.ErrStopped) {
			t.stopped = true
		} else if err != nil {
			return nil, err
		}
	}
	if t.stopped && t != b.filed {
		b.lately = b.lately[1:] // it is the most recent one
	}
	if t.stopped {
		t.stopped = false // of the one as filed the rest is whole
		return nil, solve.ErrStopped
	}
	return t, nil
}

// recall returns the one of those that are remembered, most recent first, that is
// wanted, or makes it; it is then the most recent.
func recall[T any](all *[]T, most int, wanted func(T) bool, fresh func() T) T {
	i := slices.IndexFunc(*all, wanted)
	if i < 0 {
		*all = slices.Insert(*all, 0, fresh())
		*all = (*all)[:min(len(*all), most)]
		return (*all)[0]
	}
	found := (*all)[i]
	*all = slices.Insert(slices.Delete(*all, i, i+1), 0, found)
	return found
}

// judged sets the run as the page asks and judges it.
func (b *Bench) judged(key string, ask *Asked) *tried {
	t := &tried{key: key, in: b.filed.in, unwanted: b.unwanted}
	in, err := ask.set(t, b.filed.in)
	if err == nil {
		t.in = in
		err = t.judge()
	}
	if err != nil {
		t.stopped = errors.Is(err, solve.ErrStopped)
		t.fault = WithoutPlaces(err, "").Error()
		return t
	}
	t.writes = b.writes(t)
	return t
}

// changes lists the numbers of the file that a setting changes.
func (t *tried) changes() []linkage.Change {
	var ends []*linkage.RodEnd
	var nuts []*linkage.CableEnd
	for _, turned := range t.turned {
		if turned.Nut != nil {
			nuts = append(nuts, turned.Nut)
			continue
		}
		ends = append(ends, turned.End)
	}
	return append(append(variedNumbers(t.varied), NumbersOf(ends, t.stops)...), coresOf(nuts)...)
}

// unsaveable tells why a file can't carry a setting; empty where it can. The
// cores of a pair follow from its pretension, which is measured, not reckoned.
func (t *tried) unsaveable() string {
	said, told := "", map[*linkage.Pair]bool{}
	for _, turned := range t.turned {
		if turned.Nut == nil || turned.Nut.Cable.Pair == nil || told[turned.Nut.Cable.Pair] {
			continue
		}
		pair := turned.Nut.Cable.Pair
		told[pair] = true
		if said != "" {
			said += " "
		}
		said += fmt.Sprintf("The file can't carry turns of nuts of the pair %s: how long its cores are follows from its pretension. Turn the nuts, measure the tension in both cables with what they hold as drawn, and write that as pretension into the pair, and the thread now in the nuts as engaged.", pair.Name)
	}
	return strings.TrimSpace(said + " " + t.in.Shared(t.changes()))
}

// writes tells what saving a setting would change.
func (b *Bench) writes(t *tried) (list []page.Written) {
	was := figures(b.filed.in.Run)
	for _, c := range t.changes() {
		old := was[c.Dimension]
		if w := (page.Written{Dimension: c.Dimension, File: b.filed.in.FileOf(c), Unit: old.unit, Was: old.figure, Now: c.Value}); w.Differs() {
			list = append(list, w)
		}
	}
	return list
}

// figure is a number of the file, in its unit.
type figure struct {
	figure float64
	unit   linkage.Unit
}

// figures are the numbers of a run that can be set on the workbench, by what they
// are called in a change.
func figures(run *linkage.Run) map[string]figure {
	all := map[string]figure{}
	for _, rod := range run.Rods {
		unit := run.UnitsOf(rod.In)
		all[rod.Name+".length"] = figure{rod.Length, unit}
		for _, e := range rod.Ends {
			all[e.String()+".engaged"] = figure{e.Engaged, unit}
		}
	}
	for _, c := range run.Cables {
		unit := run.UnitsOf(c.In)
		all[c.Name+".core"] = figure{c.Core, unit}
		for _, e := range c.Ends {
			all[e.String()+".engaged"] = figure{e.Engaged, unit}
		}
	}
	for _, s := range run.Stops {
		if s.Of != nil {
			unit := run.UnitsOf(s.Of.In)
			if s.Of.Angular() {
				unit = "deg"
			}
			all[s.Name+".at"] = figure{s.At, unit}
		}
	}
	for _, v := range run.Varies {
		for _, n := range v.Numbers {
			all[n.String()] = figure{n.Value(), n.Unit()}
		}
	}
	return all
}

// judgedSweep is the sweep of a control with the others where held has them, where the run
// was judged by it; nil where it wasn't.
func (t *tried) judgedSweep(control *linkage.Control, held []solve.Held) *solve.Sweep {
	for _, s := range t.result.Sweeps {
		if s.Control == control && slices.EqualFunc(s.Held, held, func(a, b solve.Held) bool { return a.Control == b.Control && a.At == b.At }) {
			return s
		}
	}
	return nil
}

// sweep moves a control of a setting with the others where held has them.
func (t *tried) sweep(control *linkage.Control, held []solve.Held) (*solve.Sweep, error) {
	key := control.Name
	for _, h := range held {
		key += fmt.Sprintf(" %s=%v", h.Control.Name, h.At)
	}
	if s := t.judgedSweep(control, held); s != nil {
		return s, nil
	}
	same := func(s swept) bool { return s.key == key }
	s := recall(&t.swept, mostSwept, same, func() swept {
		sweep, err := t.in.Mechanism.Sweep(control, held)
		return swept{key, sweep, err}
	})
	if errors.Is(s.err, solve.ErrStopped) {
		t.swept = t.swept[1:] // it is the most recent one
	}
	return s.sweep, s.err
}
