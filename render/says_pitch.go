package render

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// isPitch reports whether a requirement is of the pitch of a blade around the turn.
func isPitch(k linkage.Kind) bool { return k == linkage.CollectivePitch || k == linkage.CyclicPitch }

// PitchWords is the kind of pitch that a requirement is about.
func PitchWords(k linkage.Kind) string {
	if k == linkage.CyclicPitch {
		return "cyclic pitch"
	}
	return "collective pitch"
}

// pitch tells how the pitch of a blade came out: the mean around the turn, or how far the
// turn takes it to either side of that.
func (t telling) pitch() string {
	name, what := t.Requirement.Of[0].Name(), PitchWords(t.Requirement.Kind)
	if said := t.noPitch(name, what); said != "" {
		return said
	}
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	held := t.heldClause()
	if t.Requirement.Most != nil {
		return fmt.Sprintf("%s has at most %s of %s%s. %s.", name, t.worst(), what, held, t.allowed())
	}
	wanted := t.Requirement.Low
	if t.End == "high" {
		wanted = t.Requirement.High
	}
	got := fmt.Sprintf("%s of %s where %s is wanted%s", t.reached(t.Reaches, wanted), what, figure.Given(wanted, t.Unit), held)
	which := "at its least"
	if t.End == "high" {
		which = "at its most"
	}
	if t.Verdict == solve.Holds {
		return fmt.Sprintf("%s has both its figures to within %s: %s %s. %s.", name, t.worst(), which, got, t.allowed())
	}
	way := "short of"
	if (t.Reaches > wanted) == (t.End == "high") {
		way = "beyond"
	}
	return fmt.Sprintf("%s is %s %s its figure: %s %s. %s.", name, t.worst(), way, which, got, t.allowed())
}

// noPitch tells why there is no pitch around the turn to judge; empty where there is.
func (t telling) noPitch(name, what string) string {
	switch t.Why {
	case solve.NoFullTurn:
		return fmt.Sprintf("It can't be judged: the %s of %s is told over a full turn of the rotor, and nothing goes all the way round in this run, or it is stopped before.", what, name)
	case solve.NoCycle:
		return fmt.Sprintf("It can't be judged: %s doesn't come round again with the rotor, or not smoothly.", name)
	case solve.NoLeadingEdge:
		return fmt.Sprintf("It can't be judged: pitch counts plus with the leading edge up, and the file doesn't say which edge of %s leads: write leading-edge in its output, and see that the run says where up is.", name)
	}
	return ""
}

// pitchInShort tells by what a pitch that holds does.
func pitchInShort(j *solve.Judgement) string {
	if j.Requirement.Most != nil {
		return "at most " + WorstWords(j) + "; " + LimitWords(j) + " wanted"
	}
	return WorstWords(j) + " out; " + LimitWords(j) + " wanted"
}
