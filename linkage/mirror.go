package linkage

import (
	"slices"
	"strconv"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// mirrorName is the attribute that makes a block the mirror image of another.
const mirrorName = "mirror"

// mirrorKinds are the kinds of blocks that may be mirrored.
var mirrorKinds = []string{"part", "rod", "joint", "control", "output", "stop"}

// How near the mirrored place a point must lie to be the mirror image of another:
// nobody drills or measures so exactly, and it is more than decimals of a drawing
// leave open.
const (
	mirrorMillimeters = 0.01
	mirrorInches      = 0.0005
)

// mirroring is how a block is the mirror image of another.
type mirroring struct {
	of *block
	// at is where the other's name stands: what is wrong with the image is told there.
	at hcl.Range
	// own are the attributes that are given beside, and the blocks inside, by ownBlock.
	own map[string]bool
	// written is the image as it would be written out, without what is its own.
	written []mirrorLine
	// attribute is the whole attribute that it stands for.
	attribute *hclsyntax.Attribute
}

// ownBlock names a block inside one that is mirrored.
func ownBlock(b *hclsyntax.Block) string {
	if len(b.Labels) == 0 {
		return b.Type
	}
	return b.Type + " " + b.Labels[0]
}

// image is a dimension that is the mirror image of another.
type image struct {
	of   string
	sign float64
}

// mirrorer finds the mirror images of a file's blocks.
type mirrorer struct {
	r       *reader
	axis    int               // the coordinate that changes its sign
	words   map[string]string // direction words that change places
	blocks  map[string]*block // by name, the first of each
	images  map[string]string // names: of each original its image, and the other way round
	mirrors map[*block]*mirroring
	// plain reads numbers as the file gives them, whatever is set, and tells nothing.
	plain *reader
	// at is where what is wrong with the image being made is told.
	at Span
	// placing are the parts whose places are being worked out.
	placing map[*block]bool
	// places and metals are those that were worked out.
	places map[*block]*drawnPoints
	metals map[*block]*drawnMetal
}

// mirror returns the blocks with those that are mirror images written out; those
// that can't be are left out, which is told.
func (r *reader) mirror(blocks []*block) []*block {
	if !slices.ContainsFunc(blocks, func(b *block) bool { return b.get(mirrorName) != nil && slices.Contains(mirrorKinds, b.Type) }) {
		return blocks
	}
	m := &mirrorer{r: r, axis: r.symmetry, blocks: map[string]*block{}, images: map[string]string{}, mirrors: map[*block]*mirroring{}, placing: map[*block]bool{}, places: map[*block]*drawnPoints{}, metals: map[*block]*drawnMetal{}}
	for _, b := range blocks {
		if name := b.label(); name != "" && slices.Contains(namedKinds, b.Type) && m.blocks[name] == nil {
			m.blocks[name] = b
		}
	}
	var kept []*block
	for _, b := range blocks {
		if slices.Contains(mirrorKinds, b.Type) && b.get(mirrorName) != nil && !m.pair(b) {
			r.ghosts[b.label()] = true
			r.silent++
			continue
		}
		kept = append(kept, b)
	}
	m.plain = newReader(r.src)
	m.plain.run.Units = r.run.Units
	m.plain.declareDims(blocks)
	m.words = r.lateralWords()
	for i, b := range kept {
		if mirroring := m.mirrors[b]; mirroring != nil {
			if kept[i] = m.writtenOut(b, mirroring); kept[i] == nil {
				r.ghosts[b.label()] = true
			}
		}
	}
	return slices.DeleteFunc(kept, func(b *block) bool { return b == nil })
}

// namedKinds are the kinds of blocks that share the names of a file.
var namedKinds = []string{dimsKind, "fixed", "part", "rod", "joint", "cable", "pair", "control", "output", "stop", "pin"}

// label is a block's name; "" where it has none.
func (b *block) label() string {
	if len(b.Labels) == 0 {
		return ""
	}
	return cty.NormalizeString(b.Labels[0])
}

// pair notes which block b is the mirror image of.
func (m *mirrorer) pair(b *block) bool {
	r := m.r
	e := b.get(mirrorName)
	at := spanOf(e.Range())
	ref, ok := r.reference(e, aOrAn(b.Type))
	if !ok {
		return false
	}
	of := m.blocks[ref.root]
	name := b.label()
	switch {
	case name == "":
		return false // told
	case ref.rest != "":
		r.faults.Add(at, "%s is wanted here, by its one name: %s", aOrAn(b.Type), shortName(ref.root))
	case of == nil:
		if r.ghosts[ref.root] {
			return false
		}
		r.faults.Add(at, "there is no %s called %s%s", b.Type, shortName(ref.root), r.meant(ref.root, "", thereIs, m.named(b.Type, name)))
	case of == b || ref.root == name:
		r.faults.Add(at, "%s can't be its own mirror image", b)
	case of.Type != b.Type:
		r.faults.Add(at, "%s is wanted here, and %s is %s", aOrAn(b.Type), shortName(ref.root), aOrAn(of.Type))
	case of.get(mirrorName) != nil:
		r.faults.Add(at, "%s is a mirror image itself: name what it mirrors", of)
	case m.images[ref.root] != "":
		r.faults.Add(at, "%s has a mirror image already, %s: a plane makes one", of, shortName(m.images[ref.root]))
	case m.axis < 0:
		if !r.badSymmetry {
			r.faults.Add(at, `the run names no plane to mirror across: write symmetry = "x" in its run block, "x" being the coordinate that changes its sign`)
		}
	default:
		m.images[ref.root], m.images[name] = name, ref.root
		own := map[string]bool{}
		for given := range b.Body.Attributes {
			own[given] = true
		}
		for _, inner := range b.Body.Blocks {
			own[ownBlock(inner)] = true
		}
		m.mirrors[b] = &mirroring{of: of, at: e.Range(), own: own, attribute: b.Body.Attributes[mirrorName]}
		return true
	}
	return false
}

// named returns the names of the blocks of a kind but for one, sorted.
func (m *mirrorer) named(kind, but string) []string {
	var names []string
	for name, b := range m.blocks {
		if b.Type == kind && name != but {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// writtenOut returns the block as the mirror image that it is, what stands beside
// mirror kept; nil where that can't be, which is told.
func (m *mirrorer) writtenOut(b *block, how *mirroring) *block {
	r := m.r
	m.at = spanOf(how.at)
	how.written = m.lines(b, how)
	text := "x {\n" + textOf(how.written, "") + "}\n"
	file, diags := hclsyntax.ParseConfig([]byte(text), r.file, hcl.InitialPos)
	body, _ := file.Body.(*hclsyntax.Body)
	if diags.HasErrors() || body == nil || len(body.Blocks) != 1 {
		r.faults.Add(m.at, "%s can't be mirrored as it is written: write this one out", how.of)
		return nil
	}
	image := body.Blocks[0].Body
	moveTo(image, how.at)
	whole := *b.Block
	whole.Body = &hclsyntax.Body{Attributes: hclsyntax.Attributes{}, Blocks: image.Blocks, SrcRange: b.Body.SrcRange, EndRange: b.Body.EndRange}
	for name, attribute := range image.Attributes {
		whole.Body.Attributes[name] = attribute
	}
	for name, attribute := range b.Body.Attributes {
		if name != mirrorName {
			whole.Body.Attributes[name] = attribute
		}
	}
	whole.Body.Blocks = append(whole.Body.Blocks, b.Body.Blocks...)
	nb := &block{Block: &whole, r: r, name: b.name, misspelled: b.misspelled, mirroring: how}
	// What the original lacks is told of that.
	for _, name := range blockKinds[b.Type].attributes {
		if whole.Body.Attributes[name] == nil && how.of.get(name) == nil {
			nb.misspelled = append(nb.misspelled, name)
		}
	}
	r.mirrored = append(r.mirrored, nb)
	return nb
}

// dropMirrored drops what was told of mirror images whose original has a fault: it
// follows from that.
func (r *reader) dropMirrored() {
	for _, b := range r.mirrored {
		of := b.mirroring.of
		start, end := of.TypeRange.Start.Byte, of.CloseBraceRange.End.Byte
		at := spanOf(b.mirroring.at)
		if slices.ContainsFunc(r.faults.List, func(f Fault) bool {
			return f.Span.Line > 0 && f.Span.Start >= start && f.Span.Start < end && f.Span != at
		}) {
			r.faults.List = slices.DeleteFunc(r.faults.List, func(f Fault) bool { return f.Span == at })
		}
	}
}

// imageOf notes that a dimension is the mirror image of another.
func (r *reader) imageOf(dimension, of string, sign float64) {
	if r.images == nil {
		r.images = map[string]image{}
	}
	r.images[dimension] = image{of, sign}
}

// signs returns what the coordinates are multiplied by in a mirror image.
func (r *reader) signs() Vec {
	signs := Vec{1, 1, 1}
	if r.symmetry >= 0 {
		*signs.axis(r.symmetry) = -1
	}
	return signs
}

// reflect returns the mirror image of a place or displacement.
func (r *reader) reflect(v Vec) Vec {
	s := r.signs()
	return Vec{float64(v.X*s.X) + 0, float64(v.Y*s.Y) + 0, float64(v.Z*s.Z) + 0} // -0 becomes 0
}

// isImage reports whether an attribute of a block comes from what it mirrors.
func (b *block) isImage(attribute string) bool {
	return b.mirroring != nil && !b.mirroring.own[attribute] && b.get(attribute) != nil
}

// noteImages notes which dimensions of the file are mirror images of others.
func (r *reader) noteImages() {
	for _, b := range r.mirrored {
		name, of := b.label(), b.mirroring.of.label()
		place := func(point string) {
			for i, axis := range axes {
				signs := r.signs()
				r.imageOf(name+"."+point+axis, of+"."+point+axis, *signs.axis(i))
			}
		}
		switch b.Type {
		case "part", "rod":
			if (b.isImage("pivot") || b.isImage("ball")) && !isName(pivotOf(b)) {
				place("pivot")
			}
			for _, table := range []string{"points", "arms"} {
				if b.isImage(table) {
					for _, row := range r.rowNames(b.get(table)) {
						place(row)
					}
				}
			}
			if b.Type == "rod" && !b.mirroring.own["length"] {
				r.imageOf(name+".length", of+".length", 1)
			}
			if b.isImage("diameter") {
				r.imageOf(name+".diameter", of+".diameter", 1)
			}
			r.noteMetalImages(b, place)
		case "stop":
			if b.isImage("at") {
				r.imageOf(name+".at", of+".at", b.mirroring.turns())
			}
		}
	}
}

// noteMetalImages notes them of the metal of a part; place notes a place's.
func (r *reader) noteMetalImages(b *block, place func(point string)) {
	for _, inner := range b.Body.Blocks {
		if len(inner.Labels) == 0 || b.mirroring.own[ownBlock(inner)] {
			continue
		}
		metal := cty.NormalizeString(inner.Labels[0])
		for _, thick := range []string{"radius", "thick", "diameter"} {
			if inner.Body.Attributes[thick] != nil {
				r.imageOf(b.label()+"."+metal+"."+thick, b.mirroring.of.label()+"."+metal+"."+thick, 1)
			}
		}
		if inner.Type == "round" {
			place(metal)
			continue
		}
		a := inner.Body.Attributes["through"]
		if a == nil {
			continue
		}
		if tuple, ok := unwrap(a.Expr).(*hclsyntax.TupleConsExpr); ok {
			for i := range tuple.Exprs {
				place(metal + "." + strconv.Itoa(i))
			}
		}
	}
}

// rowNames returns the names in a table, without telling what is wrong with it.
func (r *reader) rowNames(e hclsyntax.Expression) []string {
	object, ok := unwrap(e).(*hclsyntax.ObjectConsExpr)
	if !ok {
		return nil
	}
	var names []string
	for _, item := range object.Items {
		if name, ok := tableKey(item.KeyExpr); ok {
			names = append(names, name)
		}
	}
	return names
}

// turns is -1 where a stop's figure changes its sign in the image, else 1.
func (how *mirroring) turns() float64 {
	for _, line := range how.written {
		if line.reversed {
			return -1
		}
	}
	return 1
}
