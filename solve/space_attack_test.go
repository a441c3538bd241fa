package solve_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What a builder may get wrong with parts in space is told by name, with what is missing or too many, and
// is never answered with a verdict. Every file here is plateText with one thing changed.

// withoutRod takes a rod out of a file.
func withoutRod(text, name string) string {
	return regexp.MustCompile(`(?s)rod "`+name+`" \{.*?\n\}\n`).ReplaceAllString(text, "")
}

func TestPlatesThatAreWrong(t *testing.T) {
	plate := fmt.Sprintf(plateText, "-20", "20", "0", "0")
	loose := withoutRod(plate, "anti")
	bare := withoutRod(withoutRod(withoutRod(loose, "rf"), "rl"), "rr")
	changed := func(text string, change ...string) string {
		for i := 0; i < len(change); i += 2 {
			require.Contains(t, text, change[i])
			text = strings.ReplaceAll(text, change[i], change[i+1])
		}
		return text
	}
	joint := func(a, b string) string { return fmt.Sprintf("joint \"j\" {\n  of = [%s, %s]\n}\n", a, b) }
	for name, c := range map[string]struct {
		text string
		says []string
	}{
		"nothing holds the ball":         {bare, []string{`nothing holds "ring"`, "rods or joints must end on it"}},
		"three rods, no anti-rotation":   {loose, []string{`"ring" is left loose`, `it turns about the axis of "sleeve"`, "an anti-rotation link or a rod that holds it is missing"}},
		"an actuator that nobody moves":  {regexp.MustCompile(`(?s)control "f" \{.*?\n\}\n`).ReplaceAllString(plate, ""), []string{`"ring" turns about`, "a rod that holds it is missing", `"af"`}},
		"two anti-rotation links":        {changed(plate, "{ anti =", "{ more = [90, 100, 120], anti =") + "rod \"second\" {\n  from = deck.more\n  to = ring.arm\n}\n", []string{`the rods "anti" and "second" hold the same twice`, "take one of them away"}},
		"a rod in the middle of a ball":  {changed(plate, "arm = [90, 100, 0]", "arm = [0, 100, 0]"), []string{"lies in the middle of the ball"}},
		"a joint in the middle of one":   {changed(loose, "arm = [90, 100, 0]", "arm = [0, 100, 0]") + joint("ring.arm", "sleeve.center"), []string{"holds nothing more"}},
		"a link along the mast":          {changed(plate, "anti = [90, 100, -120]", "anti = [90, -20, 0]"), []string{`"ring" turns about the axis of "sleeve" as drawn`}},
		"a link towards the mast":        {changed(plate, "anti = [90, 100, -120]", "anti = [200, 100, 0]"), []string{`"ring" turns about the axis of "sleeve" as drawn`, `the rod "anti" doesn't hold it`}},
		"all on one line with the ball":  {changed(plate, "40, 100, 69.28203230275509", "40, 100, 0", "40, 100, -69.28203230275509", "70, 100, 0"), []string{`"ring" turns about a fore-and-aft axis as drawn`}},
		"two rods to one place":          {changed(plate, "l = [40, 100, 69.28203230275509]", "l = [-80, 100, 0]", "[40, 0, 69.28203230275509]", "[-80, 0, 1]"), []string{`"ring"`, "as drawn"}},
		"carrier and carried joined":     {changed(loose, "center = [0, 100, 0]", "center = [0, 100, 0], arm = [90, 100, 0]") + joint("sleeve.arm", "ring.arm"), []string{"as drawn though the count is right"}},
		"one link hinged to what stands": {changed(loose, "fixed \"deck\"", "part \"link\" {\n  pivot = [90, 100, -120]\n  axis = [0, 1, 0]\n  points = { tip = [90, 100, 0] }\n}\nfixed \"deck\"") + joint("link.tip", "ring.arm"), []string{`the joint "j"`, "hold the same twice"}},
		"a joint of one part":            {loose + joint("ring.f", "ring.l"), []string{"both points are on"}},
		"a direction of no length":       {changed(plate, "ball   = sleeve.center", "ball = sleeve.center\n  square-to = [0, 0, 0]"), []string{"has no length"}},
		"an output of no direction":      {plate + "output \"lean\" {\n  of = ring\n}\n", []string{"say which way its tilt is read"}},
		"an output in no direction":      {plate + "output \"lean\" {\n  of = ring\n  tilts = [0, 0, 0]\n}\n", []string{"has no length"}},
		"a hand on a ball":               {plate + "control \"more\" {\n  of = ring\n  from = -1\n  to = 1\n}\n", []string{"a hand moves"}},
	} {
		told := refusal(t, c.text)
		for _, says := range c.says {
			require.Contains(t, told, says, name)
		}
	}
}

// Of axes that nearly go through one place the joint between them is told as one equation too many,
// with by how much they miss it.
func TestAxesThatMissOnePlace(t *testing.T) {
	text := cardanFile(30, "  ball = [0, 0, 0]", "joint \"ja\" {\n  of = [driving.ear, cross.a]\n}\njoint \"jc\" {\n  of = [driven.ear, cross.c]\n}\n")
	_, sweep := sweepOf(t, text)
	require.Equal(t, 180.0, sweep.High)
	told := refusal(t, replaceOnce(t, text, "pivot  = [0, 0, 0]\n  axis   = [1, 0, 0]", "pivot  = [0, 0.001, 0]\n  axis   = [1, 0, 0]"))
	require.Contains(t, told, "misses turning about one by 0.001 mm")
	// Joints alone hold such a cross, off or not.
	text = cardanFile(30, "  floats = \"space\"", "joint \"ja\" {\n  of = [driving.ear, cross.a]\n}\njoint \"jc\" {\n  of = [driven.ear, cross.c]\n}\n")
	_, sweep = sweepOf(t, replaceOnce(t, text, "pivot  = [0, 0, 0]\n  axis   = [1, 0, 0]", "pivot  = [0, 0.001, 0]\n  axis   = [1, 0, 0]"))
	require.Equal(t, 180.0, sweep.High)
	require.Empty(t, sweep.Critical)
}

// A ring drawn upside down, or anywhere in the limits of size, moves as the other does; only its
// square-to points the other way.
func TestPlateUpsideDownAndFarAway(t *testing.T) {
	plate := fmt.Sprintf(plateText, "-20", "20", "0", "0")
	want := check(t, plate)
	down := check(t, replaceOnce(t, plate, "ball   = sleeve.center", "ball = sleeve.center\n  square-to = [0, -1, 0]"))
	far := check(t, regexp.MustCompile(`\[(-?[\d.]+), (-?[\d.]+), (-?[\d.]+)\]`).ReplaceAllStringFunc(plate, func(place string) string {
		if place == "[0, 1, 0]" || place == "[1, 0, 1]" {
			return place
		}
		var v vec
		_, err := fmt.Sscanf(strings.NewReplacer("[", "", "]", "", ",", "").Replace(place), "%g %g %g", &v.X, &v.Y, &v.Z)
		require.NoError(t, err)
		return write(v.Add(at3(9e5, -9e5, 9e5)))
	}))
	for i, w := range want.Sweeps {
		for j := range w.Outputs {
			a, b, c := w.Outputs[j], down.Sweeps[i].Outputs[j], far.Sweeps[i].Outputs[j]
			near(t, a.Most, c.Most, 1e-6, "far away")
			if a.Output.Name == "height" {
				near(t, a.Most, b.Most, 1e-9, "upside down")
			} else {
				near(t, a.Most, -b.Least, 1e-9, "upside down")
			}
		}
	}
}

// The bolts of a part that spins idly stand as it spins, so how far rod ends tilt on them can't be told:
// where that is required, the spin is told.
func TestTiltOfRodEndsOnWhatSpins(t *testing.T) {
	const text = `run "bar" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { a = [0, 50] }
}
part "bar" {
  floats = "space"
  points = { a = [0, 50], b = [100, 50] }
}
fixed "frame" {
  points = { p = [100, -50, 40], q = [100, -50, -40] }
}
joint "ja" {
  of = [lever.a, bar.a]
}
rod "r1" {
  from = frame.p
  to   = bar.b
}
rod "r2" {
  from = frame.q
  to   = bar.b
}
control "hand" {
  of   = lever
  from = -30
  to   = 30
}
output "end" {
  of    = bar.b
  along = [1, 0]
}
`
	_, sweep := sweepOf(t, text)
	require.Equal(t, 30.0, sweep.High)
	told := refusal(t, text+"require \"misalignment\" {\n  most = 30\n}\n")
	require.Contains(t, told, `"bar" is left loose with the controls held: it turns`)
	require.Contains(t, told, "a rod that holds it is missing")
}
