package render

import (
	"fmt"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// Another file may have other parts: what is put side by side is what is called alike.

// none stands where a variant hasn't got what the first has.
const none = "-"

// named finds what a variant has by the name that the first has for it, and shows it;
// none where it hasn't.
func named[T any](list []T, is func(T) bool, show func(T) string) string {
	if i := slices.IndexFunc(list, is); i >= 0 {
		return show(list[i])
	}
	return none
}

// rodOf shows the rod of a variant that is called as one of the first.
func (v Variant) rodOf(name string, show func(r *linkage.Rod) string) string {
	return named(v.Result.Run.Rods, func(r *linkage.Rod) bool { return r.Name == name }, show)
}

func (v Variant) rodEndOf(name string, show func(e *linkage.RodEnd) string) string {
	return named(RodEnds(v.Result.Run), func(e *linkage.RodEnd) bool { return e.String() == name }, show)
}

func (v Variant) cableOf(name string, show func(c *linkage.Cable) string) string {
	return named(v.Result.Run.Cables, func(c *linkage.Cable) bool { return c.Name == name && !c.Open() }, show)
}

func (v Variant) cableEndOf(name string, show func(e *linkage.CableEnd) string) string {
	return named(CableEnds(v.Result.Run), func(e *linkage.CableEnd) bool { return e.String() == name }, show)
}

// judgementOf shows how the requirement of a variant came out that is of the kind and name
// of one of the first, and as manieth of these.
func (v Variant) judgementOf(r *solve.Result, i int, show func(j *solve.Judgement) string) string {
	want, before := r.Requirements[i].Requirement, 0
	like := func(q *linkage.Requirement) bool { return q.Kind == want.Kind && q.Name == want.Name }
	for k := range i {
		if like(r.Requirements[k].Requirement) {
			before++
		}
	}
	for k := range v.Result.Requirements {
		j := &v.Result.Requirements[k]
		if like(j.Requirement) {
			if before == 0 {
				return show(j)
			}
			before--
		}
	}
	return none
}

// notCompared tells what only some of the variants have.
func notCompared(variants []Variant) (says []string) {
	names := func(r *solve.Result) (list []string) {
		for _, rod := range r.Run.Rods {
			list = append(list, "rod "+figure.Clean(rod.Name))
		}
		for i := range r.Requirements {
			list = append(list, "require "+RequirementTitle(r, r.Requirements[i].Requirement))
		}
		for _, o := range r.Run.Outputs {
			list = append(list, "output "+figure.Clean(o.Name))
		}
		return list
	}
	first := names(variants[0].Result)
	for i, v := range variants[1:] {
		if !v.Other {
			continue
		}
		var more []string
		for _, name := range names(v.Result) {
			if !slices.Contains(first, name) {
				more = append(more, name)
			}
		}
		if len(more) > 0 {
			says = append(says, fmt.Sprintf("Only %s has %s: not put side by side.", figure.Letter(i+1), figure.List(more)))
		}
	}
	return says
}
