package picture

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
)

// spot is where the letters of positions belong: on a part, or on several that
// are seen one behind the other.
type spot struct {
	letters []lettered
	at      paper.Place
	out     paper.Place // the way off the part
	// spare says that another view shows the movement better: lettered only
	// where there is room.
	spare bool
}

// lettered is parts in one position.
type lettered struct {
	letter string
	parts  []*linkage.Part
}

// letters puts the letter of its position on every part in every position.
// Where letters of two parts come so close that they could be mistaken, the
// number of the part stands behind them.
func (dr *drawing) letters() {
	const (
		shared = 20.0 // sheet units
		easy   = 5.0  // what a letter that can be spared may cost
		nearer = 8.0  // what it costs to stand nearer to another spot than to its own
	)
	spots := dr.letterSpots()
	numbered := map[*linkage.Part]bool{}
	number := func(parts []*linkage.Part) {
		for _, part := range parts {
			numbered[part] = true
		}
	}
	for i, s := range spots {
		if len(s.letters) > 1 && len(s.parts()) > 1 {
			number(s.parts())
		}
		for _, other := range spots[:i] {
			if other.at.Distance(s.at) < shared && !slices.Equal(other.parts(), s.parts()) {
				number(other.parts())
				number(s.parts())
			}
		}
	}
	for _, spare := range []bool{false, true} {
		for _, s := range spots {
			if s.spare != spare {
				continue
			}
			t := paper.Text{Says: dr.spotSays(s, numbered), Size: letterSize, Bold: true, Halo: true}
			ways := allRound(t, s.at, s.out, 4, 7, 11)
			for i := range ways {
				ways[i] = ways[i].LedTo(s.at)
				for _, other := range spots {
					if other.at.Distance(ways[i].Box.Middle) < s.at.Distance(ways[i].Box.Middle)-paper.ClearlyBetter {
						ways[i].Bias += nearer
					}
				}
			}
			if spare {
				dr.labels.PutBelow(easy, ways...)
			} else {
				dr.put(t, s.at, ways...)
			}
		}
	}
}

// parts returns every part at a spot, once.
func (s spot) parts() []*linkage.Part {
	var list []*linkage.Part
	for _, l := range s.letters {
		for _, part := range l.parts {
			if !slices.Contains(list, part) {
				list = append(list, part)
			}
		}
	}
	return list
}

// spotSays returns what is written at a spot: "A", or "A2", or "A2, C3".
func (dr *drawing) spotSays(s spot, numbered map[*linkage.Part]bool) string {
	var all []string
	for _, l := range s.letters {
		says := l.letter
		var numbers []string
		for _, part := range l.parts {
			numbers = append(numbers, fmt.Sprint(dr.partNumber(part)))
		}
		if slices.ContainsFunc(l.parts, func(part *linkage.Part) bool { return numbered[part] }) {
			says += strings.Join(numbers, "+")
		}
		all = append(all, says)
	}
	return strings.Join(all, ", ")
}

// letterSpots returns where letters belong: on parts in the views that show
// their movement well.
func (dr *drawing) letterSpots() []spot {
	const (
		apart  = 3.0  // sheet units from neutral, to be told from it
		same   = 4.0  // sheet units: two places so near share their letters
		share  = 0.7  // of the movement seen in the view that shows most of it
		spared = 16.0 // sheet units that a movement must take to be lettered in a second view
	)
	var spots []spot
	for _, part := range dr.run.Parts {
		far, ok := outermost(part)
		if !ok || part.Motion == linkage.Fixed || !dr.v.letters(part) {
			continue
		}
		here, most := dr.movement(dr.v, part, far), 0.0
		best := dr.views[0]
		for _, v := range dr.views {
			if moves := dr.movement(v, part, far); moves > most*(1+paper.ClearlyBetter) {
				most, best = moves, v
			}
		}
		spare := best != dr.v.whole()
		if here*dr.v.scale < apart || spare && (here*dr.v.scale < spared || here < share*most) {
			continue
		}
		if spare && dr.hidden(part, far) {
			continue
		}
		was := dr.onSheet(dr.neutral, part, far)[0]
		for _, s := range dr.shownPoses {
			on := dr.onSheet(s.pose, part, part.Pivot, far)
			if !s.neutral && on[1].Distance(was) < apart {
				continue
			}
			out := on[0].To(on[1])
			switch {
			case part.Motion == linkage.Slides:
				out = besideGuide(dr.v.way(part.Slide).Unit()).Scale(-1)
			case part.Loose() || out == (paper.Place{}):
				out = paper.At(0, -1)
			}
			i := slices.IndexFunc(spots, func(o spot) bool { return o.at.Distance(on[1]) < same })
			if i < 0 {
				spots = append(spots, spot{at: on[1], out: out, spare: spare})
				i = len(spots) - 1
			}
			spots[i].add(s.letter, part)
			spots[i].spare = spots[i].spare && spare
		}
	}
	return spots
}

// add adds a part in a position to those at a spot.
func (s *spot) add(letter string, part *linkage.Part) {
	for i := range s.letters {
		if s.letters[i].letter == letter {
			s.letters[i].parts = append(s.letters[i].parts, part)
			return
		}
	}
	s.letters = append(s.letters, lettered{letter, []*linkage.Part{part}})
	slices.SortFunc(s.letters, func(a, b lettered) int { return cmp.Compare(a.letter, b.letter) })
}

// hidden reports whether a place of a part, at an end of the travel, lies on or
// behind what is drawn thick.
func (dr *drawing) hidden(part *linkage.Part, at linkage.Vec) bool {
	const close = 0.5 // sheet units
	for _, s := range dr.shownPoses {
		if !s.neutral && dr.labels.Covers(paper.SquareBox(dr.onSheet(s.pose, part, at)[0], close), paper.PenThick.Weight) > 0 {
			return true
		}
	}
	return false
}

// movement returns how far, in the drawing's lengths, a place of a part gets
// from neutral as a view shows it.
func (dr *drawing) movement(v *view, part *linkage.Part, at linkage.Vec) float64 {
	most := 0.0
	for _, s := range dr.shownPoses {
		most = math.Max(most, v.way(s.pose.Place(part, at).Sub(dr.neutral.Place(part, at))).Norm())
	}
	return most
}
