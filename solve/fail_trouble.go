// Layer: questions.

package solve

import "fullfree/linkage"

// Trouble is why what is left when one thing goes can't be told.
type Trouble struct {
	Kind    TroubleKind
	Control *linkage.Control // of NotFollowed, Reverses, HangsOnCable
	Part    *linkage.Part    // of Reverses: the part that does
	Cable   *linkage.Cable   // of HangsLoose: what it holds does
	Err     error            // of NotClosed: what is wrong with the run as it is left, *linkage.Faults mostly
}

// TroubleKind is a kind of trouble.
type TroubleKind int

// The kinds of trouble.
const (
	NotClosed    TroubleKind = iota // the run as it is left is refused, or doesn't close
	NotFollowed                     // a control couldn't be followed as far as it is explored
	SeveralAlone                    // more than one pair is left with a cable alone
	HangsLoose                      // what a cable that is left alone holds hangs loose otherwise
	Reverses                        // a part reverses within a control's travel, so that a cable alone pulls it now, and now doesn't
	HangsOnCable                    // a control itself hangs on a cable that is left alone
)
