package linkage

// airframes are what an airframe may be of, that open cables are strung in.
var airframes = []string{Aluminum, Steel}

// hottest is how hot or, below nothing, cold it may have been when cables were
// drawn up, degrees Celsius: nobody rigs at more.
const hottest = 60

// readTemperature reads what cables go slack or taut by as it gets warmer.
func (r *reader) readTemperature(b *block) {
	if e := b.get("rigged-at"); e != nil {
		if at, ok := r.number(e); ok {
			r.run.RiggedAt = &at
			if at < -hottest || at > hottest {
				r.faults.Add(spanOf(e.Range()), "rigged-at is the temperature when the cables were drawn up, in degrees Celsius: between -%d and %d", hottest, hottest)
			}
		}
	}
	if e := b.get("airframe"); e != nil {
		r.run.Airframe, _ = r.choice(e, airframes...)
	}
}
