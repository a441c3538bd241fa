// Layer: values.

package solve

import "fullfree/linkage"

// Cycle is how an output goes while the control makes a full turn, as a sinusoid of one
// turn: at x of the control, Mean + Cosine cos x + Sine sin x. Of the pitch of a blade
// around its rotor's turn that is the collective and the cyclic pitch. Mean, Cosine and
// Sine are those of Fourier's series over the turn, so no other sinusoid of one turn lies
// nearer in the mean square.
type Cycle struct {
	Mean, Cosine, Sine float64 // in the output's unit
	Amplitude          float64 // of the sinusoid
	// MostAt is where the sinusoid is most, of the control, degrees; nil where its amplitude
	// is too small for that to mean anything.
	MostAt *float64
	// Residue is the most that the output is off the sinusoid anywhere on the turn.
	Residue float64

	from  float64 // where the turn begins, of the control
	nodes int     // the places of the turn, evenly spaced, that tell it exactly
}

// LeastAmplitude is the amplitude, degrees, below which it isn't told where a cycle is
// most: what a protractor reads.
const LeastAmplitude = 0.2

// wholeTurn is one, degrees of the control.
const wholeTurn = 360.0

// GoesRound reports whether the control makes a full turn in the sweep, with nothing that
// stops it.
func (w *Sweep) GoesRound() bool {
	return w != nil && w.Unit == linkage.Degrees && !w.Lost && !w.CutShort && w.High-w.Low >= wholeTurn*(1-tieOfStops)
}

// fullTurn is the turn of that which is told, from where to where: the one about neutral
// where the control goes farther.
func (w *Sweep) fullTurn() (from, to float64) {
	from = max(w.Low, min(-wholeTurn/2, w.High-wholeTurn))
	return from, min(w.High, from+wholeTurn)
}
