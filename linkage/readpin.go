package linkage

// How far a bolt hole may be out where the file doesn't say, so that the bolt
// still slides in by finger. Common practice, no source.
const (
	pinMillimeters = 0.1
	pinInches      = 0.004
)

// readPin reads a pin.
func (r *reader) readPin(b *block, p *Pin) {
	if e := b.need("of", "of = part"); e != nil {
		if part, ok := r.movingRef(e); ok {
			if part.Motion == Turns || part.Motion == Slides {
				p.Of = part
			} else {
				r.faults.Add(spanOf(e.Range()), "%s %s, and a pin holds a part that turns on a pivot or slides", shortName(part.Name), part.freely())
			}
		}
	}
	p.At, _ = b.number("at", 0)
	p.Within = pinMillimeters
	if r.run.Units == Inches {
		p.Within = pinInches
	}
	if within := b.moreThanNothing("within"); within != nil {
		p.Within, p.WithinGiven = *within, true
	}
}

// readPins reads the pins, of which a part has one at most: with every pin in
// it can only be in one place.
func (r *reader) readPins() {
	holds := map[*Part]*Pin{}
	for i, b := range r.pins {
		p := r.run.Pins[i]
		r.readPin(b, p)
		b.tellMissing()
		if p.Of == nil {
			continue
		}
		if first := holds[p.Of]; first != nil {
			r.faults.Add(b.at("of"), "%s is held already by the pin %s, %s", shortName(p.Of.Name), shortName(first.Name), r.src.seen(first.Span))
			continue
		}
		holds[p.Of] = p
	}
}
