// Layer: verdict.

package solve

// Detents are the positions of a sweep with its control in each of its notches.
type Detents struct {
	Columns []Column    // as of a table of positions
	At      []float64   // the detents that the travel comes to, in the file's order
	Rows    [][]float64 // one for each of them
	Beyond  []float64   // the detents that it doesn't come to
}

// Detents returns the positions in the control's notches; nil where it has none, and of a
// sweep that no Mechanism made. One at an end of the travel by all but rounding is there.
func (w *Sweep) Detents() *Detents {
	if !w.solved() || len(w.Control.Detents) == 0 {
		return nil
	}
	s := w.borrow()
	defer w.giveBack(s)
	d := &Detents{}
	columns, measures := w.columns(s)
	d.Columns = columns
	for _, at := range w.Control.Detents {
		x, end := w.reaches(at)
		if end >= 0 || !s.solveAt(x) {
			d.Beyond = append(d.Beyond, at)
			continue
		}
		row := make([]float64, len(measures))
		for j := range measures {
			row[j] = measures[j].value(s.p)
		}
		d.At, d.Rows = append(d.At, at), append(d.Rows, row)
	}
	return d
}
