package render

import (
	"fmt"
	"io"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// RigOptions are what else a report of settings tells.
type RigOptions struct {
	Written bool // the best was written into the file
	// Full tells by itself each setting that comes to the same lengths, what was
	// searched, covered and assumed.
	Full bool
}

// RigReport writes the settings that were found for the person at the bench, best
// first, or what stands in the way of one. File is the name of the file as the
// user gave it. The error is the writer's.
func RigReport(w io.Writer, file string, run *linkage.Run, found *rig.Answer, opts RigOptions) error {
	p := pageFor(w)
	p.text("", "  ", figure.Clean(run.Name))
	p.text("", "  ", rigHeadline(run, found, opts.Written))
	reportThreadFaults(p, run)
	p.blank()
	reportInTheWay(p, run, found)
	reportOtherDimensions(p, run, found)
	var alike []string // come to what the best does
	told := 0
	for i := range found.Settings {
		if i > 0 && !opts.Full && found.Settings[i].MissesAll(&found.Settings[0]) {
			continue
		}
		if s := &found.Settings[i]; !opts.Full && i > 0 && sameLengths(s, &found.Settings[0]) {
			alike = append(alike, settingIs(run, s))
			continue
		}
		told++
		reportRigSetting(p, run, found, i, told)
	}
	if len(alike) > 0 {
		p.line("THE SAME LENGTHS, SET BY OTHER ENDS")
		for _, words := range alike {
			p.text("  ", "    ", words)
		}
	}
	reportRigOthers(p, run, found)
	if opts.Full {
		reportRigLimits(p, figure.Clean(file), run, found)
	} else {
		p.blank()
		p.text("", "  ", "Searched: "+found.Searched.String()+".")
		p.text("", "  ", TurnsCounted)
		p.text("", "  ", cablesLeft(run))
		if len(found.Settings) > 0 {
			p.text("", "  ", SurveyNote(found.Settings[0].Check.Survey))
		}
		p.text("", "  ", "As drawn in "+figure.Clean(file)+". "+CautionInShort)
	}
	return p.writeTo(w)
}

// rigHeadline is the answer in a line.
func rigHeadline(run *linkage.Run, found *rig.Answer, written bool) string {
	switch {
	case len(found.Settings) == 0:
		return "NO SETTING FOUND: the run closes at none that was searched."
	case !found.Found:
		return "NO SETTING MEETS ALL: below is the closest, and what stands in its way."
	case found.Settings[0].AsFiled():
		switch {
		case found.Most != nil:
			return "FOUND: as filed. What has more in reserve is told below."
		case !found.Searched.All():
			return "FOUND: as filed. No setting that was searched has more in hand."
		}
		return "FOUND: as filed. No other setting has more in hand."
	case written:
		return "FOUND: " + settingIs(run, &found.Settings[0]) + ". It is written into the file."
	}
	return "FOUND: " + settingIs(run, &found.Settings[0]) + "."
}

// settingIs tells a setting: what is turned, and where stops are set.
func settingIs(run *linkage.Run, s *rig.Setting) string {
	var said []string
	for _, t := range s.Turns {
		said = append(said, fmt.Sprintf("%s %s", t.End, signedTurns(t.Turns)))
	}
	for _, t := range s.Stops {
		said = append(said, fmt.Sprintf("the stop %s at %s", figure.Quoted(t.Stop.Name), figure.StopAt(t.At, figure.PartUnit(run, t.Stop.Of))))
	}
	if s.AsFiled() {
		return "everything as filed"
	}
	return figure.List(said)
}

// sameLengths reports whether two settings make every rod as long and set every stop
// alike, so that all that is told of the one is true of the other but where thread is in.
func sameLengths(a, b *rig.Setting) bool {
	longer := func(s *rig.Setting) map[string]float64 {
		by := map[string]float64{}
		for _, t := range s.Turns {
			by[t.End.Rod.Name] += float64(t.Turns * t.End.PerTurn())
		}
		for _, t := range s.Stops {
			by["stop "+t.Stop.Name] = t.At
		}
		return by
	}
	one, other := longer(a), longer(b)
	for name, by := range one {
		if math.Abs(by-other[name]) > sameLength {
			return false
		}
	}
	for name, by := range other {
		if math.Abs(by-one[name]) > sameLength {
			return false
		}
	}
	return len(a.Unfit) == len(b.Unfit) && a.Verdict == b.Verdict
}

// cablesLeft tells that cables aren't set here; empty where none can be.
func cablesLeft(run *linkage.Run) string {
	if len(CableEnds(run)) == 0 {
		return ""
	}
	return "Cables were left as they are filed: it is rod ends and stops alone that are set here. What a turn of their nuts does, \"fullfree effect\" tells."
}

// sameLength is within what two lengths are one, run units or degrees: rounding.
const sameLength = 1e-9

// mustSays names something that a setting must meet.
func mustSays(r *solve.Result, m rig.Must) string {
	switch {
	case m.Requirement != nil:
		return RequirementTitle(r, m.Requirement)
	case m.Pinned != nil:
		return m.Pinned.Rod.Name + " fitting with the pins in"
	case m.Nut != nil:
		return "thread enough in " + m.Nut.String()
	}
	return "thread enough in " + m.End.String()
}

func reportInTheWay(p *page, run *linkage.Run, found *rig.Answer) {
	if len(found.InTheWay) == 0 || len(found.Settings) == 0 {
		return
	}
	r := found.Settings[0].Check
	p.line("IN THE WAY")
	for _, way := range found.InTheWay {
		what := mustSays(r, way.What)
		if way.Never || way.Best == nil {
			said := what + ": no setting that was searched meets it."
			if way.Never {
				said += " Something else than a rod end must change."
			} else {
				said += " Not all were searched."
			}
			p.text("  ", "    ", said)
			continue
		}
		var fails []string
		for _, m := range way.Fails {
			fails = append(fails, mustSays(r, m))
		}
		said := fmt.Sprintf("%s would be met by %s", what, settingIs(run, way.Best))
		if len(fails) > 0 {
			said += ", but in its way there stands " + figure.List(fails)
		}
		p.text("  ", "    ", said+".")
	}
	p.blank()
}

// reportRigSetting tells one setting, under its number in the report, with what it comes
// to.
func reportRigSetting(p *page, filed *linkage.Run, found *rig.Answer, i, number int) {
	s := &found.Settings[i]
	run := s.Check.Run
	p.text(fmt.Sprintf("%d. ", number), "   ", settingIs(run, s))
	for _, words := range UnfitSay(run, s.Unfit) {
		p.text("   ", "     ", "SHORT: "+words)
	}
	for k := range s.Pinned {
		if fit := &s.Pinned[k]; fit.Length != nil {
			p.text("   ", "     ", "SHORT: "+pinnedSays(run.UnitsOf(fit.Rod.In), fit))
		}
	}
	p.text("   ", "   ", Headline(s.Check)+reserveSays(s.Reserve))
	if len(s.Displaced) > 0 {
		p.text("   ", "     ", displacedSays(filed, s.Displaced))
	}
	p.text("   ", "     ", movedSays(filed, s.Moved))
	if i > 0 {
		return
	}
	required := table{head: []string{"required", "", "worst", "allowed", "reserve"}}
	for _, j := range s.Check.Judged() {
		reserve := "-"
		if v := j.Reserve(); v != nil {
			reserve = percent(*v)
		}
		required.add(RequirementTitle(s.Check, j.Requirement), VerdictMark(j.Verdict), WorstWords(j), LimitWords(j), reserve)
	}
	required.write(p, "   ")
	p.blank()
	ends := table{head: []string{"so set", "", "rod", "in rod", "spare"}}
	for _, e := range s.Ends {
		unit := run.UnitsOf(e.End.Rod.In)
		ends.add(e.End.String(), string(unit), figure.CalipersLength(e.Length, unit), figure.CalipersNumber(e.Engaged, unit), figure.CalipersNumber(e.Spare, unit))
	}
	if len(ends.rows) > 0 {
		ends.write(p, "   ")
		p.blank()
	}
}

// reportOtherDimensions tells which single dimensions would do where no rod end does.
func reportOtherDimensions(p *page, run *linkage.Run, found *rig.Answer) {
	if found.Found || len(found.Others) == 0 {
		return
	}
	p.line("ONE DIMENSION THAT WOULD DO, BY ITSELF, NEAREST FIRST")
	for _, o := range found.Others {
		unit := o.Number.Unit()
		tell := func(v float64) string {
			if unit == linkage.Millimeters || unit == linkage.Inches {
				return figure.Calipers(v, unit)
			}
			return figure.Quantity(v, unit)
		}
		p.text("  ", "    ", fmt.Sprintf("%s %s instead of %s.%s", figure.Clean(o.Number.String()), tell(o.Value), tell(o.Number.Value()), reserveSays(o.Reserve)))
	}
	p.text("  ", "    ", "All else as filed. \"fullfree find\" looks for several together. "+DrillNothing)
	p.blank()
}

// displacedSays tells what stands right at neutral as filed, and not in a setting.
func displacedSays(run *linkage.Run, displaced []solve.Displaced) string {
	var stands, stood []string
	for _, d := range displaced {
		if d.Output != nil {
			continue // it reads a part, which is told
		}
		what := d.Name + " then stands at "
		if len(stands) > 0 {
			what = d.Name + " at "
		}
		stands = append(stands, what+figure.Quantity(d.At, d.Unit)+towards(run, d))
		if was := figure.Quantity(d.Was, d.Unit); !slices.Contains(stood, was) {
			stood = append(stood, was)
		}
	}
	it := "it"
	if len(stands) > 1 {
		it = "they"
	}
	return fmt.Sprintf("At neutral %s; as filed %s stood right, at %s.", figure.List(stands), it, figure.List(stood))
}

// movedSays tells what is moved at neutral that stood off the drawing as filed already;
// empty where nothing is.
func movedSays(run *linkage.Run, moved []solve.Displaced) string {
	var stands []string
	for _, d := range moved {
		if d.Output != nil {
			continue // it reads a part, which is told
		}
		stands = append(stands, fmt.Sprintf("%s to %s%s from %s", d.Name, figure.Quantity(d.At, d.Unit), towards(run, d), figure.Quantity(d.Was, d.Unit)))
	}
	if len(stands) == 0 {
		return ""
	}
	return "At neutral it moves " + figure.List(stands) + "."
}

// towards is an output's word for the side to which its part stands, in brackets.
func towards(run *linkage.Run, d solve.Displaced) string {
	for _, o := range run.Outputs {
		word := o.Plus
		if d.At < 0 {
			word = o.Minus
		}
		if o.Part == d.Part && o.Point == nil && word != "" {
			return " (" + figure.Clean(word) + ")"
		}
	}
	return ""
}

// reportRigOthers tells what else meets everything: with the most in reserve, and
// with fewer ends turned.
func reportRigOthers(p *page, run *linkage.Run, found *rig.Answer) {
	if found.Most == nil && found.Fewest == nil && found.Advised == nil {
		return
	}
	p.blank()
	p.line("IT WOULD ALSO HOLD")
	tell := func(what string, s *rig.Setting) {
		if s == nil {
			return
		}
		p.text("  ", "    ", what+": "+settingIs(run, s)+"."+reserveSays(s.Reserve))
		if len(s.Displaced) > 0 {
			p.text("    ", "    ", displacedSays(run, s.Displaced))
		}
		p.text("    ", "    ", movedSays(run, s.Moved))
	}
	tell("With the most in reserve", found.Most)
	tell("With the fewest ends turned", found.Fewest)
	tell("As check advises", found.Advised)
}

// reserveSays tells a setting's reserve.
func reserveSays(v *float64) string {
	if v == nil {
		return ""
	}
	if *v < 0 {
		return " Missed by " + percent(-*v) + " of a limit."
	}
	return " At least " + percent(*v) + " of every limit in reserve."
}

// percent is a share in whole percents.
func percent(v float64) string {
	const hundred = 100
	return figure.Decimal(float64(v*hundred), 0) + "%"
}

func reportRigLimits(p *page, file string, run *linkage.Run, found *rig.Answer) {
	say := func(words string) { p.text("  ", "    ", words) }
	if len(found.Settings) > 1 {
		p.blank()
	}
	p.line("BEFORE IT IS BOLTED UP")
	say(TurnsCounted)
	for _, words := range BarrelSays(run) {
		say(words)
	}
	for _, words := range SettingsAssumed(run) {
		say(words)
	}
	say(WitnessCheck)
	p.blank()
	p.line("WHAT THIS ANSWER IS")
	say("Searched: " + found.Searched.String() + ".")
	if len(found.NoMost) > 0 {
		var names []string
		for _, e := range found.NoMost {
			names = append(names, e.String())
		}
		say(fmt.Sprintf("The file doesn't say where %s bottoms out (most): taken to go in by 10 turns at most (%s). Try it on the bench.", figure.List(names), NoSource))
	}
	for _, e := range found.Outside {
		say(fmt.Sprintf("No step brings %s between its least and its most thread.", e))
	}
	for _, s := range found.StopsLeft {
		say(fmt.Sprintf("The stop %s was left where it is: no travel is required, and a shorter travel makes most figures prettier.", figure.Quoted(s.Name)))
	}
	say(cablesLeft(run))
	say("Best is what fails in the fewest requirements, then misses least, then leaves most of every limit in reserve (of what is allowed, the share that is left; one that can only hold or not counts only so), but turns no second end for less than twice the reserve; then the fewest ends, then what moves least at neutral of what stands right there.")
	if found.Cut {
		say("Not all that was found is told: it would take too long to check.")
	}
	if len(found.Settings) > 0 {
		r := found.Settings[0].Check
		say("Covered: " + covered(r) + ", as drawn in " + file + "; nothing beyond.")
		say(SurveyNote(r.Survey))
		say("Assumed: " + Assumed(r) + ", no play.")
		if unchecked := notChecked(r); unchecked != "" {
			say("Not checked, because the file doesn't require it: " + unchecked + ".")
		}
	}
	say(Caution)
}
