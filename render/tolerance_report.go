package render

import (
	"fmt"
	"io"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/tolerance"
)

// ToleranceOptions are what else a report of builds tells.
type ToleranceOptions struct {
	// Full tells every dimension of the worst builds, all blame, and how far each dimension
	// may be out by itself.
	Full bool
}

const (
	// mostBlamed is how many dimensions are blamed in short, of each requirement, and
	// leastBlamed the least share of one.
	mostBlamed  = 4
	leastBlamed = 0.03
	// poorlyLinear is the share of a variance from which on it is told that the shares by
	// derivatives are to be taken with care.
	poorlyLinear = 0.8
	// mostTight is how many dimensions are told in short of those that decide.
	mostTight = 8
)

// ToleranceReport writes what became of builds: of each requirement how often it holds, or
// fails, what is to blame, and how far each dimension may be out by itself. File is the name
// of the file as the user gave it. The error is the writer's.
func ToleranceReport(w io.Writer, file string, a *tolerance.Answer, opts ToleranceOptions) error {
	if err := a.Whole(); err != nil {
		return err
	}
	p := pageFor(w)
	run := a.Nominal.Run
	p.text("", "  ", figure.Clean(run.Name))
	for _, words := range BuildsSay(a) {
		p.text("", "  ", words)
	}
	p.text("", "  ", "Asked: "+ToleranceAsked(run)+".")
	p.blank()
	p.line("OF THESE BUILDS")
	for i := range a.Outcomes {
		o := &a.Outcomes[i]
		p.text("  ", "    ", outcomeTitle(a, o)+": "+OutcomeSays(a, o))
		if worst := worstSays(o); worst != "" {
			p.text("    ", "    ", worst)
		}
		if o.Worst != nil && opts.Full {
			p.text("    ", "      ", "so built: "+buildSays(a, o.Worst))
		}
	}
	reportBlame(p, a, opts.Full)
	reportAlone(p, a, opts.Full)
	p.blank()
	for _, words := range ToleranceAssumes(a) {
		p.text("", "  ", words)
	}
	p.text("", "  ", "As drawn in "+figure.Clean(file)+". "+strings.Replace(CautionInShort, " --full tells the rest: every figure, what was covered, assumed and never checked.", " --full tells every dimension.", 1))
	return p.writeTo(w)
}

// ToleranceAsked tells how far the file says that things may be out.
func ToleranceAsked(run *linkage.Run) string {
	var said []string
	add := func(what string, by float64, unit linkage.Unit) {
		if by > 0 {
			said = append(said, what+" ± "+figure.Given(by, unit))
		}
	}
	if t := run.Tolerance; t != nil {
		add("holes", t.Points, run.Units)
		add("pivots", t.Pivots, run.Units)
		add("set lengths", t.Rods, run.Units)
		add("stops", t.Stops, linkage.Degrees)
	}
	own := func(name string, by *float64, unit linkage.Unit) {
		if by != nil {
			said = append(said, figure.Clean(name)+" ± "+figure.Given(*by, unit))
		}
	}
	for _, p := range run.Parts {
		own(p.Name, p.Tolerance, run.Units)
	}
	for _, r := range run.Rods {
		own(r.Name, r.Tolerance, run.Units)
	}
	for _, s := range run.Stops {
		if s.Of != nil {
			own(s.Name, s.Tolerance, figure.PartUnit(run, s.Of))
		}
	}
	return figure.List(said)
}

// buildsSection tells builds in a book.
func buildsSection(p *page, a *tolerance.Answer) {
	p.text("  ", "    ", "Asked: "+ToleranceAsked(a.Nominal.Run)+".")
	for _, words := range BuildsSay(a) {
		p.text("  ", "    ", words)
	}
	for i := range a.Outcomes {
		o := &a.Outcomes[i]
		said := outcomeTitle(a, o) + ": " + OutcomeSays(a, o)
		if blame := BlameSays(o, mostBlamed); blame != "" && o.Linear != nil {
			said += fmt.Sprintf(" To blame for the spread: %s (slopes explain %s of it).", blame, figure.Decimal(float64(100**o.Linear), 0)+"%")
		}
		p.text("  ", "    ", said)
	}
	for _, words := range ToleranceAssumes(a) {
		p.text("  ", "    ", words)
	}
}

// buildCount writes a number of builds in groups of three.
func buildCount(n int) string {
	digits := fmt.Sprint(n)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + " " + digits[i:]
	}
	return digits
}

// countedBuilds writes a number of builds with its noun.
func countedBuilds(n int) string {
	if n == 1 {
		return "1 build"
	}
	return buildCount(n) + " builds"
}

// everyBuild names all of so many builds.
func everyBuild(n int) string {
	if n == 1 {
		return "the only build"
	}
	return "all " + countedBuilds(n)
}

// BuildsSay tells how the builds were made.
func BuildsSay(a *tolerance.Answer) (said []string) {
	how := "all within the tolerance of the file as likely"
	if a.Bell {
		how = "drawn from the bell curve, the tolerance of the file two standard deviations"
	}
	said = append(said, fmt.Sprintf("%s, %s (seed %d).", countedBuilds(a.Builds), how, a.Seed))
	if a.Builds < a.Asked {
		said = append(said, fmt.Sprintf("STOPPED: these are the first %s of the %s that were asked for.", buildCount(a.Builds), buildCount(a.Asked)))
	}
	if a.Rigged {
		var set []string
		if len(a.RiggedRods) > 0 {
			names := figure.FirstOf(len(a.RiggedRods), mostBlamed, func(i int) string { return a.RiggedRods[i].Name })
			set = append(set, figure.List(names)+" by whole steps to the rig pins")
		}
		if len(a.RiggedStops) > 0 {
			names := figure.FirstOf(len(a.RiggedStops), mostBlamed, func(i int) string { return a.RiggedStops[i].Name })
			set = append(set, figure.List(names)+" to the travel required")
		}
		said = append(said, "Each is rigged first: "+strings.Join(set, "; ")+". (--as-drilled leaves that out.)")
	}
	if a.Open > 0 {
		said = append(said, fmt.Sprintf("%s of them can't be assembled at neutral, or have a stop past contact there, and count as failing in everything.", buildCount(a.Open)))
	}
	switch {
	case a.Redone:
		said = append(said, fmt.Sprintf("Of %s looked at in every step too, %s came out otherwise, so all were looked at in every step.", countedBuilds(a.Everywhere), buildCount(a.Missed)))
	case a.Everywhere > 0:
		said = append(said, fmt.Sprintf("Events were sought from where the run as drawn has them; %s of the builds, looked at in every step too, came out the same.", buildCount(a.Everywhere)))
	}
	return said
}

// outcomeTitle names a requirement or label.
func outcomeTitle(a *tolerance.Answer, o *tolerance.Outcome) string {
	switch o.Requirement.Kind {
	case linkage.AsSet:
		return "setting of the rod ends"
	case linkage.LabelKind:
		return "words of " + figure.Quoted(o.Requirement.Name)
	}
	return RequirementTitle(a.Nominal, o.Requirement)
}

// sharePercent writes a share so that less than all is never told as all, nor more than nothing
// as nothing.
func sharePercent(share float64) string {
	for d := 1; d < 6; d++ {
		text := figure.Decimal(float64(100*share), d)
		var shown float64
		if _, err := fmt.Sscan(text, &shown); err == nil && (shown < 100) == (share < 1) && (shown > 0) == (share > 0) {
			return text + "%"
		}
	}
	return figure.Decimal(float64(100*share), 6) + "%"
}

// OutcomeSays tells how a requirement came out over the builds.
func OutcomeSays(a *tolerance.Answer, o *tolerance.Outcome) string {
	said := ""
	if o.Hazard {
		said = fmt.Sprintf("FAILS in %s of %s", buildCount(o.Fails()), countedBuilds(o.Builds))
		if o.Fails() == 0 {
			said += fmt.Sprintf(" (which can't rule out %s, with a confidence of 95%%)", sharePercent(1-o.Low))
		} else {
			said += fmt.Sprintf(" (with a confidence of 95%%, in %s to %s of all)", sharePercent(1-o.High), sharePercent(1-o.Low))
		}
	} else {
		said = fmt.Sprintf("holds in %s of the builds (with a confidence of 95%%, in %s to %s of all)", sharePercent(o.Share), sharePercent(o.Low), sharePercent(o.High))
		if o.Fails() == 0 {
			said = fmt.Sprintf("holds in %s (with a confidence of 95%%, in at least %s of all)", everyBuild(o.Builds), sharePercent(o.Low))
		}
	}
	if o.Untold > 0 {
		said += fmt.Sprintf("; in %s it can't be judged, which counts as failing", buildCount(o.Untold))
	}
	return said + "."
}

// outcomeFigure tells a worst figure of a requirement; a tilt over what its rod allows as
// that.
func outcomeFigure(o *tolerance.Outcome, v float64) string {
	switch o.Requirement.Kind {
	case linkage.Stops:
		return fmt.Sprintf("%.0f missing", v)
	case linkage.Sense, linkage.LabelKind:
		return figure.RatioNumber(v)
	case linkage.FreePlay:
		return playFigure(v, o.Limit, o.Unit)
	case linkage.Engagement:
		return figure.Calipers(v, o.Unit)
	}
	return figure.Readable(v, o.Limit, o.Unit)
}

// worstSays tells the spread of a worst figure; empty where there is none, or it is the same
// in all builds.
func worstSays(o *tolerance.Outcome) string {
	p := o.Percentiles
	if p == nil || o.Worst == nil || o.Requirement.Kind == linkage.LabelKind {
		return ""
	}
	if o.Requirement.Kind == linkage.Stops && o.Fails() == 0 {
		return ""
	}
	if o.Requirement.Kind == linkage.Misalignment && o.Requirement.Most == nil {
		left := func(v float64) string { return figure.Readable(o.Limit-v, 0, o.Unit) }
		return fmt.Sprintf("tilt left of what the rod allows: %s in the middle, %s to %s in 9 builds of 10, %s in the worst (build %s)",
			left(p[1]), left(p[2]), left(p[0]), left(o.Worst.Value), buildCount(o.Worst.Number))
	}
	what := "worst figure"
	return fmt.Sprintf("%s: %s in the middle, %s to %s in 9 builds of 10, %s in the worst (build %s); %s wanted", what,
		outcomeFigure(o, p[1]), outcomeFigure(o, p[0]), outcomeFigure(o, p[2]), outcomeFigure(o, o.Worst.Value), buildCount(o.Worst.Number),
		limitOf(o))
}

// limitOf is what a requirement asks for.
func limitOf(o *tolerance.Outcome) string {
	return LimitWords(&solve.Judgement{Requirement: o.Requirement, Limit: o.Limit, Unit: o.Unit})
}

// buildSays tells the dimensions of a build.
func buildSays(a *tolerance.Answer, w *tolerance.WorstBuild) string {
	units := map[string]linkage.Unit{}
	for _, d := range a.Dimensions {
		units[d.Name] = d.Unit
	}
	var said []string
	for _, v := range w.Build {
		said = append(said, v.Name+" "+figure.WithUnit(figure.Decimal(v.Value, playDecimals(units[v.Name])), units[v.Name]))
	}
	return strings.Join(said, ", ")
}

// BlameSays tells which dimensions are to blame for how a worst figure spreads; empty where
// none is.
func BlameSays(o *tolerance.Outcome, most int) string {
	var said []string
	for i, b := range o.Blame {
		if most > 0 && (i >= most || b.Share < leastBlamed) {
			break
		}
		said = append(said, b.Dimension+" "+figure.Decimal(float64(100*b.Share), 0)+"%")
	}
	return figure.List(said)
}

// reportBlame tells what is to blame.
func reportBlame(p *page, a *tolerance.Answer, full bool) {
	most := mostBlamed
	if full {
		most = 0
	}
	begun := false
	for i := range a.Outcomes {
		o := &a.Outcomes[i]
		said := BlameSays(o, most)
		if said == "" || o.Linear == nil || o.Requirement.Kind == linkage.LabelKind {
			continue
		}
		if !begun {
			p.blank()
			p.line("WHAT IS TO BLAME for the spread (shares of the variance, by the slopes)")
			begun = true
		}
		said += fmt.Sprintf("; slopes explain %s of it", figure.Decimal(float64(100**o.Linear), 0)+"%")
		if *o.Linear < poorlyLinear {
			said += ", so take these shares with care"
		}
		p.text("  ", "    ", outcomeTitle(a, o)+": "+said)
	}
}

// AloneFails names what fails first as one dimension is out by itself.
func AloneFails(a *tolerance.Answer, r *linkage.Requirement, open bool) string {
	if open || r == nil {
		return "can't be assembled"
	}
	for i := range a.Outcomes {
		if o := &a.Outcomes[i]; o.Requirement == r {
			return outcomeTitle(a, o)
		}
	}
	return string(r.Kind)
}

// failsShort is that without a name where the run has no other of its kind.
func failsShort(a *tolerance.Answer, r *linkage.Requirement, open bool) string {
	alike := 0
	for i := range a.Outcomes {
		if r != nil && a.Outcomes[i].Requirement.Kind == r.Kind {
			alike++
		}
	}
	if open || r == nil || alike > 1 {
		return AloneFails(a, r, open)
	}
	return string(r.Kind)
}

// tightness is how far a dimension may be out by itself on its tighter side, in half-widths;
// infinite where nothing fails.
func tightness(k *tolerance.Alone) float64 {
	least := math.Inf(1)
	for _, far := range []*float64{k.Minus, k.Plus} {
		if far != nil && k.By > 0 {
			least = math.Min(least, *far/k.By)
		}
	}
	return least
}

// reportAlone tells how far each dimension may be out by itself.
func reportAlone(p *page, a *tolerance.Answer, full bool) {
	rows := make([]*tolerance.Alone, 0, len(a.Alone))
	free := 0
	for i := range a.Alone {
		if k := &a.Alone[i]; k.Minus == nil && k.Plus == nil {
			free++
		} else {
			rows = append(rows, k)
		}
	}
	if len(rows) == 0 {
		return
	}
	if !full {
		rows = tightest(rows)
	}
	p.blank()
	p.line("BY ITSELF, all else as drawn: how far one may be out before something fails")
	t := &table{head: []string{"dimension", "tolerance", "minus", "plus", "fails first"}}
	for _, k := range rows {
		t.add(k.Dimension, "± "+playNumber(k.By, k.Unit), aloneCell(k, k.Minus, k.MinusFails), aloneCell(k, k.Plus, k.PlusFails), aloneFirst(a, k))
	}
	t.write(p, "  ")
	if left := len(a.Alone) - len(rows) - free; left > 0 {
		p.text("  ", "    ", fmt.Sprintf("%d more that may be out farther: --full tells them.", left))
	}
	if free > 0 {
		p.text("  ", "    ", fmt.Sprintf("%d others let nothing fail within 20 times their tolerance.", free))
	}
}

// tightest are the dimensions that may be out least for their tolerance, in the file's order.
func tightest(rows []*tolerance.Alone) (list []*tolerance.Alone) {
	for _, k := range rows {
		tighter := 0
		for _, other := range rows {
			if tightness(other) < tightness(k) {
				tighter++
			}
		}
		if tighter < mostTight {
			list = append(list, k)
		}
	}
	return list[:min(len(list), mostTight)]
}

// aloneCell tells how far out on one side. Where what fails is of a kind of which no wider
// limit is advised, what is farther than the tolerance isn't told.
func aloneCell(k *tolerance.Alone, far *float64, fails *linkage.Requirement) string {
	switch {
	case far == nil:
		return "-"
	case fails != nil && tolerance.IsHazard(fails.Kind) && *far > k.By:
		return "as asked"
	}
	return playNumber(*far, k.Unit)
}

// aloneFirst names what fails first on the nearer side.
func aloneFirst(a *tolerance.Answer, k *tolerance.Alone) string {
	if k.Plus == nil || k.Minus != nil && *k.Minus <= *k.Plus {
		return failsShort(a, k.MinusFails, k.MinusOpen)
	}
	return failsShort(a, k.PlusFails, k.PlusOpen)
}

// ToleranceAssumes tells what the shares rest on.
func ToleranceAssumes(a *tolerance.Answer) []string {
	said := []string{"A share is of these builds, not of yours: it is as good as the tolerance in the file. What the file doesn't say may be out counts as exact: metal that touches, cables, diameters."}
	for i := range a.Outcomes {
		if a.Outcomes[i].Hazard {
			said = append(said, "Of sense, words, over-center, stops, setting and engagement no share is told that holds, and no wider limit advised: one build in which these fail is one too many.")
			break
		}
	}
	return said
}
