package linkage

import "slices"

const (
	// leastDiameters is how much thread must be in a rod where the file doesn't
	// say, in diameters (common practice, no source found; the maker's figure rules).
	leastDiameters = 1.5
	// endStep is the turns by which an end is set where the file doesn't say:
	// its bolt goes in again after each half turn (common practice, no source).
	endStep = 0.5
)

// rodSides are the two ends of a rod.
var rodSides = []string{"from", "to"}

// endBlock is a rod's end being read.
type endBlock struct {
	*block
	end *RodEnd
}

// readEnds reads a rod's threaded ends.
func (r *reader) readEnds(rod *rodBlock) {
	given := map[string]*block{}
	for _, inner := range rod.Body.Blocks {
		if inner.Type != "end" {
			continue
		}
		b := r.newBlock(inner)
		r.checkSide(b, given, rodSides, "a rod's ends are told by their side", "rod "+shortName(rod.rod.Name))
		end := &RodEnd{Rod: rod.rod, Side: b.name, Span: b.span()}
		rod.rod.Ends = append(rod.rod.Ends, end)
		rod.ends = append(rod.ends, endBlock{b, end})
		r.readEnd(b, end)
		b.tellMissing()
	}
}

// checkSide tells of an end block whose side is neither of the two, or is given
// already. how says what ends are told by, and of whose they are.
func (r *reader) checkSide(b *block, given map[string]*block, sides []string, how, of string) {
	if len(b.Labels) == 0 {
		return // told already
	}
	at := spanOf(b.LabelRanges[0])
	switch first := given[b.name]; {
	case !slices.Contains(sides, b.name):
		r.faults.Add(at, "%s, end %q or end %q, not %s", how, sides[0], sides[1], shortName(b.name))
	case first != nil:
		r.faults.Add(at, "the end %q of the %s is given already, %s", b.name, of, r.src.seen(first.span()))
	default:
		given[b.name] = b
	}
}

// readEnd reads a threaded end.
func (r *reader) readEnd(b *block, end *RodEnd) {
	thread, known := r.readThread(b, `thread = "1/4-28"`)
	end.Thread, end.Left = thread, r.readHand(b)
	end.Step = endStep
	if step := b.atLeast("step", 0); step != nil {
		end.Step, end.StepGiven = *step, true
	}
	end.Most, end.Shank = b.moreThanNothing("most"), b.moreThanNothing("shank")
	end.Least = float64(leastDiameters * end.Thread.Diameter)
	end.LeastGiven = b.get("least") != nil
	if least := b.moreThanNothing("least"); least != nil {
		end.Least = *least
		for _, limit := range []struct {
			name  string
			value *float64
		}{{"most", end.Most}, {"shank", end.Shank}} {
			if limit.value != nil && *least > *limit.value {
				r.faults.Add(b.at("least"), "least is more than %s: so much thread can't be in", limit.name)
			}
		}
	}
	end.JointPlay = b.readPlay()
	if end.JointPlay != nil && end.Rod.SecondPath {
		r.faults.Add(b.at("joint-play"), "a second path drives nothing: what it gives each way, its joints and all, is its play")
	}
	r.readEngaged(b, end, known)
}

// readThread reads which thread an end has, and reports whether that is known.
func (r *reader) readThread(b *block, example string) (thread Thread, known bool) {
	e := b.need("thread", example)
	if e == nil {
		return Thread{}, false
	}
	name, ok := r.text(e)
	if !ok {
		return Thread{}, false
	}
	thread, err := ParseThread(name, r.run.Units)
	if err != nil {
		r.faults.Add(spanOf(e.Range()), "%v", err)
	}
	return thread, err == nil
}

// readHand reads whether a thread is left-hand.
func (r *reader) readHand(b *block) (left bool) {
	e := b.get("hand")
	if e == nil {
		return false
	}
	hand, _ := r.choice(e, "right", "left")
	return hand == "left"
}

// engagedWays are the attributes that say how much thread is in a rod.
var engagedWays = []string{"engaged", "home", "exposed"}

// needWay returns which attribute says how much thread is in the rod; "" where
// none does, or not well.
func (r *reader) needWay(b *block) string {
	var given []string
	for _, name := range engagedWays {
		switch {
		case b.get(name) != nil:
			given = append(given, name)
		case slices.Contains(b.misspelled, name):
			r.silent++ // told as an attribute of another name
			return ""
		}
	}
	switch {
	case len(given) == 0:
		b.need("engaged", "engaged = 11 (the thread in the rod; or home, turns out from fully home; or exposed)")
		return ""
	case len(given) > 1:
		r.faults.Add(b.at(given[1]), "the thread in the rod is given once, and here by %s and by %s", given[0], given[1])
		return ""
	}
	way := given[0]
	if way == "home" && b.get("most") == nil {
		r.faults.Add(b.at(way), "home counts turns out from fully home, so it needs the thread in the rod there: write most = 19")
		return ""
	}
	if way == "exposed" && b.get("shank") == nil {
		r.faults.Add(b.at(way), "exposed is the thread outside the rod, so it needs the length of the end's whole thread: write shank = 19")
		return ""
	}
	return way
}

// readEngaged reads how much thread is in the rod, in whichever way it is
// given; known says that the thread is.
func (r *reader) readEngaged(b *block, end *RodEnd, known bool) {
	way := r.needWay(b)
	var value *float64
	if way == "engaged" {
		value = b.moreThanNothing(way)
	} else if way != "" {
		value = b.atLeast(way, 0)
	}
	switch {
	case value == nil:
		return
	case way == "engaged":
		end.Engaged = *value
	case way == "home" && end.Most != nil && known:
		end.Engaged = *end.Most - float64(*value*end.Thread.Pitch)
	case way == "exposed" && end.Shank != nil:
		end.Engaged = *end.Shank - *value
	default:
		return // what it is measured with is faulty, which is told
	}
	switch {
	case end.Engaged <= 0:
		r.faults.Add(b.at(way), "so far out no thread is left in the rod: it would be %.4g", end.Engaged)
	case end.Shank != nil && end.Engaged > *end.Shank:
		r.faults.Add(b.at(way), "more thread would be in the rod, %.4g, than the end has, %.4g by its shank", end.Engaged, *end.Shank)
	}
}
