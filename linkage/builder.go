package linkage

import (
	"errors"
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Builder puts a run together without a file: one call for each block that a
// file would have, in any order, then Run.
//
// Points and other things are named as in a file: "lever.eye". What a file may
// leave out may be left at its zero value here. Run checks everything by the very
// rules that a file is read by. Its faults say which block they are about, as a
// builder has no lines, and call attributes by their names in a file.
//
// The run is the one that a file of the same content gives, except that it has
// no text: its Spans point at no line, and nothing can be written back to it.
//
// The zero Builder has no title and lacks its unit. A Builder is not safe for use
// from several goroutines.
type Builder struct {
	run    *hclsyntax.Block
	blocks hclsyntax.Blocks
	// built says what the run and each of its blocks and attributes is, for faults.
	built []string
	// faults are what can't be handed on to the reader.
	faults []Fault
}

// NewBuilder begins a run of a title.
func NewBuilder(title string, spec RunSpec) *Builder {
	b := &Builder{}
	w := b.newBlock("run", title)
	spec.write(w)
	b.run = w.block
	return b
}

// errNoBuilder is what a Builder that is nil gives.
var errNoBuilder = errors.New("there is no builder to make a run")

// Run checks what was built and returns the run. The error is *Faults and holds
// everything that is wrong. The Builder can be built on afterwards; runs that it
// returned stay as they are.
func (b *Builder) Run() (*Run, error) {
	if b == nil {
		return nil, errNoBuilder
	}
	if b.run == nil {
		b.run = b.newBlock("run", "").block
	}
	r := newReader(&Source{built: slices.Clone(b.built)})
	r.faults.List = append(r.faults.List, b.faults...)
	r.readSettings(nil)
	body := &hclsyntax.Body{Attributes: hclsyntax.Attributes{}}
	body.Blocks = append(append(body.Blocks, b.run), b.blocks...)
	r.read(body)
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return r.run, nil
}

// add adds a block that a spec writes. Of a Builder that is nil nothing is kept,
// which Run tells.
func (b *Builder) add(spec interface{ write(w *blockWriter) }, kind string, labels ...string) {
	if b == nil {
		return
	}
	w := b.newBlock(kind, labels...)
	spec.write(w)
	b.blocks = append(b.blocks, w.block)
}

// Fixed adds what is fixed to the airframe.
func (b *Builder) Fixed(name string, spec PartSpec) { b.add(spec, "fixed", name) }

// Part adds a part that moves.
func (b *Builder) Part(name string, spec PartSpec) { b.add(spec, "part", name) }

// Rod adds a rod.
func (b *Builder) Rod(name string, spec RodSpec) { b.add(spec, "rod", name) }

// Joint adds a joint, which makes two points one.
func (b *Builder) Joint(name string, spec JointSpec) { b.add(spec, "joint", name) }

// Cable adds a cable, in a conduit or open.
func (b *Builder) Cable(name string, spec CableSpec) { b.add(spec, "cable", name) }

// Pair adds two cables that are drawn up against each other.
func (b *Builder) Pair(name string, spec PairSpec) { b.add(spec, "pair", name) }

// Control adds what a hand or foot moves.
func (b *Builder) Control(name string, spec ControlSpec) { b.add(spec, "control", name) }

// Output adds what the run is there to move.
func (b *Builder) Output(name string, spec OutputSpec) { b.add(spec, "output", name) }

// Stop adds a stop.
func (b *Builder) Stop(name string, spec StopSpec) { b.add(spec, "stop", name) }

// Pin adds a pin that holds a part while the rods are fitted.
func (b *Builder) Pin(name string, spec PinSpec) { b.add(spec, "pin", name) }

// Rotor says what turns blades, and which way.
func (b *Builder) Rotor(spec RotorSpec) { b.add(spec, "rotor") }

// Tolerance says how far what is made may be out.
func (b *Builder) Tolerance(spec ToleranceSpec) { b.add(spec, toleranceKind) }

// Require adds a requirement of a kind. Its name is free text and may be empty.
func (b *Builder) Require(kind Kind, name string, spec RequireSpec) {
	labels := []string{string(kind)}
	if name != "" {
		labels = append(labels, name)
	}
	b.add(requireSpec{kind, spec}, "require", labels...)
}

// Measured adds something taped or gauged.
func (b *Builder) Measured(kind MeasurementKind, name string, spec MeasurementSpec) {
	b.add(spec, string(kind), name)
}

// Rigged adds readings taken after rigging.
func (b *Builder) Rigged(name string, spec RiggingSpec) { b.add(spec, "measured", name) }
