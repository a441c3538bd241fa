// Layer: sweep.

package solve

// mirrorPoint is a place of the control with the two quantities and their rates there.
type mirrorPoint struct {
	x     float64
	v, dv [2]float64 // of the first and the second
	valid bool       // the rates are finite
}

// mirrorStretch lies between two neighboring samples, the inner one first. Where a pair
// goes slack its rates are those on this side of it.
type mirrorStretch [2]mirrorPoint

// noteMirrored keeps what requirements of symmetry need of the stretch between two
// neighboring samples.
func (s *sweeper) noteMirrored(sd *side, a, b *sample) {
	for k := range s.judged {
		j := &s.judged[k]
		if !j.mirrored || a.x == b.x {
			continue
		}
		of := func(k *sample) mirrorPoint {
			return mirrorPoint{k.x, [2]float64{k.v[j.probe], k.v[j.second]}, [2]float64{k.dv[j.probe], k.dv[j.second]}, k.valid}
		}
		j.stretches[sd.index] = append(j.stretches[sd.index], mirrorStretch{of(a), of(b)})
	}
}
