package linkage

import (
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// readAsked reads what was asked to vary besides: "crank.in.y=40..70",
// "left-link.length=290..300:0.5", "lever.horn=[0, 50],[0, 60]".
func (r *reader) readAsked(text string) {
	before := "--vary " + Printable(text) + ": "
	tell := func(format string, args ...any) { r.faults.Add(Span{}, "%s%s", before, fmt.Sprintf(format, args...)) }
	name, values, ok := strings.Cut(text, "=")
	name, values = cty.NormalizeString(strings.TrimSpace(name)), strings.TrimSpace(values)
	if !ok || name == "" || values == "" {
		tell("a dimension and its range are wanted, as in crank.in.y=40..70 or link.length=290..300:0.5")
		return
	}
	v := &Vary{}
	found := len(r.faults.List)
	// What is told of it has no place in the file.
	defer func() {
		for i := found; i < len(r.faults.List); i++ {
			if f := &r.faults.List[i]; !strings.HasPrefix(f.Says, before) {
				f.Says, f.Span = before+f.Says, Span{}
			}
		}
	}()
	if !r.find(v, name, Span{}) {
		return
	}
	if low, rest, isRange := strings.Cut(values, ".."); isRange {
		high, step, stepped := strings.Cut(rest, ":")
		wanted := []*float64{&v.Low, &v.High, &v.Step}
		for i, text := range []string{low, high, step} {
			if i == 2 && !stepped {
				continue
			}
			value, says := settingValue(text, r.run.Units)
			if says != "" {
				tell("%s", says)
				return
			}
			*wanted[i] = value
		}
		if stepped && v.Step <= 0 {
			tell("step is more than 0")
			return
		}
		r.checkRange(v, Span{}, Span{})
	} else {
		e, says := listOf(values)
		if says != "" {
			tell("%s", says)
			return
		}
		r.readAmong(v, e)
	}
	// It stands in for what the file says of the same.
	r.run.Varies = slices.DeleteFunc(r.run.Varies, func(filed *Vary) bool {
		return filed.Span != (Span{}) && slices.ContainsFunc(filed.Numbers, func(n Number) bool {
			return slices.ContainsFunc(v.Numbers, func(k Number) bool { return k.name == n.name })
		})
	})
	r.run.Varies = append(r.run.Varies, v)
}

// listOf parses values with commas between.
func listOf(text string) (e hclsyntax.Expression, says string) {
	r := newReader(&Source{Text: []byte("[" + text + "]")})
	r.bare = true
	if _, ok := r.guard(r.lines, hclsyntax.LexExpression); ok {
		e, diags := hclsyntax.ParseExpression(r.lines, "", hcl.InitialPos)
		if len(r.faults.List) == 0 && !diags.HasErrors() {
			return e, ""
		}
	}
	if len(r.faults.List) > 0 {
		return nil, r.faults.List[0].Says
	}
	return nil, "a range is wanted, as in 40..70, or values, as in [0, 50],[0, 60]"
}

// ReadVarying is ReadWith, with more that may vary than the file says: each as
// "crank.in.y=40..70", "left-link.length=290..300:0.5" or "lever.horn=[0, 50],[0, 60]".
func ReadVarying(src *Source, open Opener, vary []string, set ...Setting) (*Run, error) {
	r, err := readerFor(src, open, vary, set...)
	if err != nil {
		return nil, err
	}
	return r.run, nil
}
