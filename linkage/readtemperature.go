package linkage

// airframes are what an airframe may be of, that open cables are strung in.
var airframes = []string{Aluminum, Steel}

// Hottest is how hot or, below nothing, cold it may be when cables are drawn up or
// looked at, degrees Celsius: nobody rigs at more.
const Hottest = 60

// readTemperature reads what cables go slack or taut by as it gets warmer.
func (r *reader) readTemperature(b *block) {
	if e := b.get("rigged-at"); e != nil {
		if at, ok := r.number(e); ok {
			r.run.RiggedAt = &at
			if at < -Hottest || at > Hottest {
				r.faults.Add(spanOf(e.Range()), "rigged-at is the temperature when the cables were drawn up, in degrees Celsius: between -%d and %d", Hottest, Hottest)
			}
		}
	}
	if e := b.get("airframe"); e != nil {
		r.run.Airframe, _ = r.choice(e, airframes...)
	}
}
