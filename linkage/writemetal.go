package linkage

import (
	"math"
	"slices"
	"strconv"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// rewriteMetal changes the numbers of a part's metal; those of mirrored metal follow what
// they are mirrored from.
func (w *rewriter) rewriteMetal(p *partBlock) {
	for i, b := range p.features {
		f := &p.part.Features[i]
		name := p.part.Name + "." + f.Name
		if _, image := w.r.images[w.firstOf(f, name)]; image {
			continue
		}
		var places []hclsyntax.Expression
		if f.Shape == Round {
			places = []hclsyntax.Expression{b.get("at")}
		} else if tuple, ok := unwrap(b.get("through")).(*hclsyntax.TupleConsExpr); ok {
			places = tuple.Exprs
		}
		for k, e := range places {
			at := name
			if f.Shape == Edge {
				at += "." + strconv.Itoa(k)
			}
			f.Through[k] = w.vector(e, at, Vec{})
		}
		if f.Shape == Round {
			w.figure(b, "radius", name+".radius", &f.Radius)
			continue
		}
		thick := 2 * f.Radius
		w.figure(b, f.thickness(), name+"."+f.thickness(), &thick)
		f.Radius = thick / 2
	}
}

// firstOf is the name of the first coordinate of metal.
func (w *rewriter) firstOf(f *Feature, name string) string {
	if f.Shape == Edge {
		name += ".0"
	}
	return name + axes[0]
}

// rewriteThickness changes how thick rods are.
func (w *rewriter) rewriteThickness() {
	for _, b := range w.r.rods {
		if b.rod.Diameter != nil && !b.isImage("diameter") {
			w.figure(b.block, "diameter", b.rod.Name+".diameter", b.rod.Diameter)
		}
	}
}

// followMetal makes mirrored metal what follows from what it is mirrored from.
func (w *rewriter) followMetal() {
	run := w.r.run
	for name, image := range w.r.images {
		n, ok := run.number(name)
		of, there := run.number(image.of)
		switch {
		case !ok || !there:
		case n.metal != nil:
			value := float64(image.sign * of.value)
			f := &n.metal.part.Features[n.metal.feature]
			if f.Shape == Edge && n.metal.place < 0 {
				value /= 2
			}
			*n.metal.at(f) = value + 0 // no negative zero
		case n.rod != nil:
			*n.rod.Diameter = of.value
		}
	}
}

// metalFigures are the numbers of metal and how thick rods are, by name.
func (run *Run) metalFigures(figures map[string]float64) {
	run.eachThickness(func(name string) {
		if n, ok := run.number(name); ok {
			figures[name] = n.value
		}
	})
}

// RewriteNumbers is Rewrite of any numbers that a Setting knows: named dimensions too,
// with which all goes that is written with them.
func RewriteNumbers(src *Source, changes []Change) ([]byte, error) {
	r, err := readerOf(src, nil)
	if err != nil {
		return nil, err
	}
	var named, others []Change
	for _, c := range changes {
		if _, ok := r.run.written.dims[cty.NormalizeString(c.Dimension)]; ok {
			named = append(named, c)
		} else {
			others = append(others, c)
		}
	}
	text := src.Text
	if len(named) > 0 {
		if text, err = rewriteNamed(r, named); err != nil {
			return nil, err
		}
	}
	if len(others) == 0 {
		return text, nil
	}
	return Rewrite(&Source{Name: src.Name, Text: text}, others)
}

// rewriteNamed changes the numbers of named dimensions where they are given, and holds
// what reads then against what a Setting of them reads.
func rewriteNamed(r *reader, changes []Change) ([]byte, error) {
	w := &rewriter{r: r, changes: map[string]float64{}, unused: map[string]bool{}}
	w.tokens, _ = hclsyntax.LexConfig(r.lines, "", hcl.InitialPos)
	w.readChanges(changes)
	for _, d := range r.dimsOrder {
		for _, name := range d.order {
			entry := d.entries[name]
			want, ok := w.wanted(entry.String())
			if !ok {
				continue
			}
			w.r.run.written.dims[entry.String()] = w.number(entry.expr, want)
		}
	}
	w.tellUnused()
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	text := w.splice()
	var set []Setting
	for _, c := range changes {
		written, _ := decimal(c.Value)
		set = append(set, Setting{c.Dimension, written})
	}
	return text, sameAsSet(r.src, text, set)
}

// sameAsSet tells where a text doesn't read as another does with settings.
func sameAsSet(src *Source, text []byte, set []Setting) error {
	want, err := Read(src, set...)
	if err != nil {
		return err
	}
	read, err := Read(&Source{Name: src.Name, Text: text})
	if err != nil {
		return err
	}
	numbers := func(run *Run) (list []float64) {
		for _, n := range run.Numbers() {
			list = append(list, n.value)
		}
		return list
	}
	alike := func(a, b float64) bool { return math.Abs(a-b) <= writtenHalf }
	if !slices.EqualFunc(numbers(want), numbers(read), alike) {
		faults := &Faults{Source: src}
		faults.Add(Span{}, "nothing was written: the changed file would not read as it was meant")
		return faults.Err()
	}
	return nil
}
