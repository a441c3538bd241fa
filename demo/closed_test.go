package demo_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
)

// What the tests here compare the demos with: the same drawings closed one
// hinge at a time by a formula of their own, in whole turns of rigid parts,
// sharing nothing with solve.

// text returns a demo's text, with pairs of old and new text exchanged.
func text(t *testing.T, kind string, exchange ...string) string {
	t.Helper()
	b, ok := demo.File(kind)
	require.True(t, ok, kind)
	s := string(b)
	for i := 0; i+1 < len(exchange); i += 2 {
		require.Equal(t, 1, strings.Count(s, exchange[i]), "%q in %s", exchange[i], kind)
		s = strings.Replace(s, exchange[i], exchange[i+1], 1)
	}
	return s
}

// without returns a demo's text with one block taken out.
func without(t *testing.T, kind, header string) string {
	t.Helper()
	s := text(t, kind)
	from := strings.Index(s, header)
	require.GreaterOrEqual(t, from, 0, header)
	to := strings.Index(s[from:], "\n}\n")
	require.Greater(t, to, 0, header)
	return s[:from] + s[from+to+len("\n}\n"):]
}

// check reads, compiles and judges a text.
func check(t *testing.T, text string) *solve.Result {
	t.Helper()
	return judge(t, read(t, text))
}

func read(t *testing.T, text string) *linkage.Run {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "demo.hcl", Text: []byte(text)})
	require.NoError(t, err)
	return run
}

func judge(t *testing.T, run *linkage.Run) *solve.Result {
	t.Helper()
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	return r
}

// judged returns the judgement of a kind, and of a name where there are several.
func judged(t *testing.T, r *solve.Result, kind linkage.Kind, name ...string) solve.Judgement {
	t.Helper()
	for _, j := range r.Requirements {
		if j.Requirement.Kind == kind && (len(name) == 0 || j.Requirement.Name == name[0]) {
			return j
		}
	}
	require.Fail(t, "no such requirement", "%s %v", kind, name)
	return solve.Judgement{}
}

// travel returns how a part moves in a sweep.
func travel(t *testing.T, s *solve.Sweep, name string) solve.PartTravel {
	t.Helper()
	for _, p := range s.Parts {
		if p.Name == name {
			return p
		}
	}
	require.Fail(t, "no such part", name)
	return solve.PartTravel{}
}

// drawing gives a run's dimensions by their names in the file.
type drawing struct {
	t *testing.T
	*linkage.Run
}

func (d drawing) part(name string) *linkage.Part {
	for _, p := range d.Parts {
		if p.Name == name {
			return p
		}
	}
	require.Fail(d.t, "no such part", name)
	return nil
}

func (d drawing) rod(name string) *linkage.Rod {
	for _, r := range d.Rods {
		if r.Name == name {
			return r
		}
	}
	require.Fail(d.t, "no such rod", name)
	return nil
}

// point returns where "part.point" is drawn.
func (d drawing) point(name string) linkage.Vec {
	owner, point, _ := strings.Cut(name, ".")
	for _, p := range d.part(owner).Points {
		if p.Name == point {
			return p.At
		}
	}
	require.Fail(d.t, "no such point", name)
	return linkage.Vec{}
}

// turned returns where a place of the part is after it has turned by degrees.
func (d drawing) turned(part string, place linkage.Vec, degrees float64) linkage.Vec {
	p := d.part(part)
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	r := place.Sub(p.Pivot)
	along := p.Axis.Scale(p.Axis.Dot(r))
	return p.Pivot.Add(along).Add(r.Sub(along).Scale(cos)).Add(p.Axis.Cross(r).Scale(sin))
}

// closes returns how far a part has turned when the hole of it is length from
// a place: of the two ways it closes, in degrees, the nearer one to near.
//
// With k the axis, r the arm square to it and w the place from the foot of the
// arm, |r cos t + (k x r) sin t - w| = length, which is
// w.r cos t + w.(k x r) sin t = (r.r + w.w - length^2)/2.
func (d drawing) closes(hole string, place linkage.Vec, length, near float64) float64 {
	owner, _, _ := strings.Cut(hole, ".")
	p := d.part(owner)
	r := d.point(hole).Sub(p.Pivot)
	along := p.Axis.Scale(p.Axis.Dot(r))
	r = r.Sub(along)
	w := place.Sub(p.Pivot).Sub(along)
	q := p.Axis.Cross(r)
	a, b := w.Dot(r), w.Dot(q)
	c := (r.Dot(r) + w.Dot(w) - length*length) / 2
	middle, half := math.Atan2(b, a), math.Acos(c/math.Hypot(a, b))
	require.False(d.t, math.IsNaN(half), "%s doesn't reach", hole)
	one, other := nearest(middle+half, near), nearest(middle-half, near)
	if math.Abs(one-near) < math.Abs(other-near) {
		return one
	}
	return other
}

// nearest returns an angle in degrees, by whole turns as near as can be to near.
func nearest(radians, near float64) float64 {
	a := radians * 180 / math.Pi
	return a - 360*math.Round((a-near)/360)
}
