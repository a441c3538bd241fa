package picture

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
)

// story tells the whole diagram in words, for those who don't see it. Names
// stand in it whole.
func (d *diagram) story() string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+" ", args...) }
	say("%s", render.Headline(d.result))
	if says := render.Unsure(d.result); says != "" {
		say("%s", says)
	}
	say("%s: %s.", d.run.Name, d.moving())
	if changed := d.settings(); changed != "" {
		say("%s", changed)
	}
	if d.opts.Aircraft != "" {
		say("%s", d.opts.Aircraft)
	}
	for _, v := range d.views {
		say("%s.", v.words)
		for _, detail := range v.details {
			say("%s: %s.", detail.words, figure.List(d.lettersOf(detail)))
		}
	}
	for _, s := range d.shownPoses {
		say("Position %s: %s.", s.letter, d.poseSays(s))
	}
	for _, t := range d.sweep.Parts {
		say("%s: %s.", t.Name, d.readings(t.Unit, func(s shownPose) float64 { return partReading(d.sweep, s, t) }))
	}
	for _, t := range d.sweep.Outputs {
		say("Output %s: %s.", t.Output.Name, d.readings(t.Unit, func(s shownPose) float64 { return outputReading(s, t) }))
	}
	for i := range d.sweep.Ends {
		say("The %s end: %s", render.SideName(i), render.EndSays(d.result, d.sweep, i))
	}
	if len(d.sweep.Critical) == 0 {
		say("On center: nowhere from %s to %s.", figure.Quantity(d.sweep.Explored[0], d.sweep.Unit), figure.Quantity(d.sweep.Explored[1], d.sweep.Unit))
	}
	for _, f := range d.flags {
		say("On center, flag %s: %s.", f.mark, d.flagSays(f))
	}
	for _, j := range d.result.Judged() {
		say("Required, %s: %s", render.RequirementTitle(d.result, j.Requirement), strings.TrimSpace(verdictWords(j.Verdict)+render.Says(d.result, j)+" "+render.BandSays(d.result, j)))
	}
	if bands := render.BandsAssume(d.result); bands != "" {
		say("%s", bands)
	}
	for _, p := range d.run.Parts {
		say("Part %d: %s, %s.", d.partNumber(p), p.Name, partWords(p))
	}
	for _, r := range d.run.Rods {
		say("Part %d: %s, %s.", d.rodNumber(r), r.Name, d.rodWords(r))
	}
	for _, c := range d.run.Cables {
		say("Part %d: %s, %s.", d.cableNumber(c), c.Name, d.cableWords(c))
	}
	if note := d.conduitNote(); note != "" {
		say("%s", note)
	}
	say("%s", d.rests())
	return strings.TrimSpace(b.String())
}

// readings tells one figure in every lettered position.
func (d *diagram) readings(unit linkage.Unit, shown func(shownPose) float64) string {
	var said []string
	for _, s := range d.shownPoses {
		said = append(said, s.letter+" "+figure.Quantity(shown(s), unit))
	}
	return strings.Join(said, ", ")
}

func verdictWords(v solve.Verdict) string {
	switch v {
	case solve.Holds:
		return "holds. "
	case solve.FallsShort:
		return "falls short. "
	}
	return "can't be judged. "
}
