package linkage

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// mostMembers is the most runs that an aircraft may have: no aircraft has a tenth of it.
const mostMembers = 256

// isAircraft reports whether a file is an aircraft's, not a run's.
func isAircraft(body *hclsyntax.Body) bool {
	return slices.ContainsFunc(body.Blocks, func(b *hclsyntax.Block) bool { return b.Type == aircraftKind })
}

// readAircraft reads an aircraft file and the runs that it names, and joins them to one
// run.
func (r *reader) readAircraft(body *hclsyntax.Body, open Opener, set []Setting) {
	own := *r.src
	r.src, r.run.Source, r.faults.Source = &own, &own, &own
	r.top = aircraftKinds
	blocks := r.checkTop(body)
	r.run.Aircraft = &Aircraft{}
	r.run.Plane = true
	r.readTitle(blocks)
	members := r.readMembers(blocks, open)
	r.handSettings(members, set)
	for _, m := range members {
		m.reader.readAll(nil, m.set)
		m.reader.refuseAircraft(m.block)
		r.takeFaults(m.reader)
	}
	if len(r.faults.List) > 0 {
		return // what is told of names would follow from what is wrong with the runs
	}
	for _, m := range members {
		r.join(m.Member, m.reader)
		r.run.Uncertain = max(r.run.Uncertain, m.Run.Uncertain)
		r.run.UncertainGiven = r.run.UncertainGiven || m.Run.UncertainGiven
		r.run.Sketch = max(r.run.Sketch, m.Run.Sketch)
	}
	r.readSameParts(blocks)
	labels := map[string]*block{}
	for _, b := range blocks {
		switch b.Type {
		case "require":
			r.readAcross(b)
		case "measured":
			g := &Rigging{Span: b.span()}
			r.run.Riggings = append(r.run.Riggings, g)
			r.readRigging(b, g, labels)
			r.refuseFollower(g.Control, b.at("control"))
		}
	}
}

// memberBlock is a run block of an aircraft file.
type memberBlock struct {
	*Member
	block  *block
	reader *reader
	set    []Setting
}

// readTitle reads the aircraft block, of which there must be exactly one.
func (r *reader) readTitle(blocks []*block) {
	var first *block
	for _, b := range blocks {
		switch {
		case b.Type != aircraftKind:
		case first != nil:
			r.faults.Add(b.span(), "a file has one aircraft block, and one stands on line %d", first.span().Line)
		default:
			first = b
			r.run.Span = b.span()
			if len(b.Labels) > 0 {
				r.run.Name = b.Labels[0]
			}
			if e := b.get("craft"); e != nil {
				craft, _ := r.choice(e, string(Airplane), string(Rotorcraft))
				r.run.Craft = Craft(craft)
			}
		}
	}
}

// readMembers reads which runs the aircraft has, and their files.
func (r *reader) readMembers(blocks []*block, open Opener) (members []*memberBlock) {
	given := map[string]Span{}
	for _, b := range blocks {
		if b.Type != "run" || len(b.Labels) == 0 {
			continue
		}
		at := spanOf(b.LabelRanges[0])
		if old, twice := given[b.name]; twice {
			r.faults.Add(at, "the name %s is given already to the run on line %d", shortName(b.name), old.Line)
			continue
		}
		if !r.checkName(b.name, at) {
			continue
		}
		given[b.name] = at
		m := &memberBlock{Member: &Member{Name: b.name, Span: b.span(), Index: len(members)}, block: b}
		m.File = r.memberFile(b)
		if b.tellMissing(); m.File == "" {
			continue
		}
		if len(members) == mostMembers {
			r.faults.Add(at, "more than %d runs", mostMembers)
			return members
		}
		if open == nil {
			r.faults.Add(at, "this is an aircraft, whose runs are files of their own that are not read here: name the file of one run")
			return members
		}
		src, err := open(m.File)
		if err != nil {
			r.faults.Add(b.at("file"), "%s", err)
			continue
		}
		m.Source = src
		m.reader = newReader(src)
		m.reader.file, m.reader.set.prefix = src.Name, m.Name+"."
		r.run.Aircraft.Members = append(r.run.Aircraft.Members, m.Member)
		r.src.members = append(r.src.members, src)
		members = append(members, m)
	}
	if len(given) == 0 {
		r.faults.Add(r.run.Span, `the aircraft has no run: write run "pedals" { file = "pedals.hcl" }`)
	}
	return members
}

// memberFile reads the name of a member's file; empty where it is none that may be
// opened.
func (r *reader) memberFile(b *block) string {
	e := b.need("file", `file = "pedals.hcl"`)
	if e == nil {
		return ""
	}
	name, ok := r.text(e)
	switch {
	case !ok:
		return ""
	case !strings.HasSuffix(name, ".hcl"):
		r.faults.Add(b.at("file"), "the file of a run ends in .hcl, and here is %s", shortName(name))
		return ""
	case !filepath.IsLocal(name) || strings.Contains(name, `\`):
		r.faults.Add(b.at("file"), "a run's file lies beside this one or below its folder, as in file = \"tail/tail.hcl\", and nothing else is opened: not %s", shortName(name))
		return ""
	}
	return name
}

// refuseAircraft tells of a member that is an aircraft itself.
func (r *reader) refuseAircraft(b *block) {
	if r.run.Aircraft != nil {
		r.faults.List = nil
		b.r.faults.Add(b.at("file"), "this is the file of an aircraft, and that of a run is wanted here")
	}
}

// takeFaults tells what is wrong with a member's file.
func (r *reader) takeFaults(member *reader) {
	member.faults.Err() // sorts them
	for _, f := range member.faults.List {
		f.Span.File = member.file
		if len(r.faults.List) >= maxFaults {
			r.faults.more++
			continue
		}
		r.faults.List = append(r.faults.List, f)
	}
	r.faults.more += member.faults.more
}

// handSettings hands each setting to the member that it names.
func (r *reader) handSettings(members []*memberBlock, set []Setting) {
	var names []string
	for _, m := range members {
		names = append(names, m.Name)
	}
	for _, s := range set {
		name, rest, _ := strings.Cut(strings.TrimSpace(s.Dimension), ".")
		i := slices.Index(names, name)
		if i < 0 || rest == "" {
			hint := ": of an aircraft a dimension begins with the name of its run, as in --set pedals.left-link.length=297"
			if best := Nearest(name, names); i < 0 && best != "" {
				hint = fmt.Sprintf("; did you mean %q?", best+"."+rest)
			}
			r.faults.Add(Span{}, "--set %s=%s: there is no run %s%s", s.Dimension, s.Value, shortName(name), hint)
			continue
		}
		members[i].set = append(members[i].set, Setting{rest, s.Value})
	}
}

// apartKinds are the kinds of requirement about two things of one place, which runs don't
// share.
var apartKinds = []Kind{Clearance, Meets, SecondPath}

// readAcross reads a requirement over several runs.
func (r *reader) readAcross(b *block) {
	if slices.Contains(apartKinds, Kind(b.name)) {
		r.faults.Add(b.span(), "%s belongs in a run's own file: runs share no place, so nothing of one is near to anything of another", b)
		return
	}
	q := &Requirement{Span: b.span(), Kind: Kind(b.name), Index: len(r.run.Requirements)}
	r.run.Requirements = append(r.run.Requirements, q)
	r.readRequirement(b, q)
	b.tellMissing()
	r.refuseFollower(q.Control, q.ControlSpan)
	r.refuseApart(b, q)
}

// refuseApart tells of a requirement of things in two runs that nothing joins, so that no
// hand moves both.
func (r *reader) refuseApart(b *block, q *Requirement) {
	var named []*Member
	for _, s := range q.Of {
		named = append(named, s.In())
	}
	for _, p := range q.Places {
		named = append(named, p.Place.In())
	}
	for _, s := range []*Stop{q.First, q.Then} {
		if s != nil {
			named = append(named, s.In)
		}
	}
	group := make([]int, len(r.run.Aircraft.Members)) // by member: the first that it is joined to
	for i := range group {
		group[i] = i
	}
	for _, s := range r.run.SameParts {
		a, c := group[s.Leads.In.Index], group[s.Follows.In.Index]
		for i := range group {
			if group[i] == max(a, c) {
				group[i] = min(a, c)
			}
		}
	}
	for _, other := range named {
		if first := named[0]; group[first.Index] != group[other.Index] {
			r.faults.Add(b.span(), "nothing joins the runs %s and %s, so no hand moves both: write same-part \"...\" { of = [%s.part, %s.part] }", shortName(first.Name), shortName(other.Name), first.Name, other.Name)
			return
		}
	}
}

// refuseFollower tells of a control that is none in the aircraft, since another run moves
// its part.
func (r *reader) refuseFollower(c *Control, at Span) {
	if s := r.run.FollowerOf(c); s != nil {
		r.faults.Add(at, "%s is no control in the aircraft: %s moves its part; name the hand's control", shortName(c.Name), shortName(s.Leads.Name))
	}
}
