package photo

import (
	"math"

	"fullfree/linkage/elementary"
)

const (
	// checkedTape and checkedAway are the share of a distance to which the rest must tell
	// it, one standard deviation, for them to check it: else only a reading that is off by
	// half shows, and of the camera's distance one of several times.
	checkedTape, checkedAway = 0.15, 0.5
	// doubtfulFrom is the standardized residual above which a measurement is doubtful:
	// chance alone goes so far once in 370.
	doubtfulFrom = 3
	// likeDoubtful is how near the largest another standardized residual must come for
	// either to be the one that slipped: chance moves them by as much.
	likeDoubtful = 0.5
	// oneDirection is the angle in degrees within which distances are in one direction:
	// across it a foreshortening shows as little as the cosine of what is left of it.
	oneDirection = 25
)

// addChecks adds what the rest says about each sighting.
func (m *mixture) addChecks(s *settled, share float64) {
	for i, redundancy := range s.redundancies(make([]float64, len(s.rows))) {
		c := &m.checks[i]
		c.Residual += float64(share * s.rows[i].off)
		c.Redundancy += float64(share * redundancy)
		c.Misclosure += float64(share*s.rows[i].off) / redundancy
		c.Standardized += float64(share*s.rows[i].off) / math.Sqrt(redundancy)
	}
}

// tellChecks fills in what the rest says about each measurement.
func (m *mixture) tellChecks(found *Places) {
	checks := m.checks
	for i := range checks {
		c := &checks[i]
		c.Residual /= m.roll.share
		c.Redundancy /= m.roll.share
		c.Standardized /= m.roll.share
		c.Misclosure /= m.roll.share
		g := &m.net.sightings[i]
		// How surely the rest tells what was measured.
		rest := g.sigma / math.Sqrt(c.Redundancy)
		unit := g.sigma
		switch g.kind {
		case taped:
			c.Checked = rest < checkedTape*g.is
		case gauged:
			c.Checked = true // by how level a camera is held at least
			unit /= degree
		case told:
			c.Checked = rest < checkedAway
			unit = float64(unit * m.net.photo.Away)
		}
		c.Residual, c.Misclosure = float64(c.Residual*unit), float64(c.Misclosure*unit)
		if !c.Checked {
			c.Misclosure, c.Standardized = 0, 0
		}
	}
	worst, most := -1, float64(doubtfulFrom)
	for i := range checks {
		if off := math.Abs(checks[i].Standardized); off > most {
			worst, most = i, off
		}
	}
	if worst >= 0 {
		for i := range checks {
			checks[i].AsDoubtful = i != worst && math.Abs(checks[i].Standardized) > most-likeDoubtful
		}
		checks[worst].Doubtful = true
	}
	tapes, levels := len(m.net.photo.Tapes), len(m.net.photo.Levels)
	found.Tapes, found.Levels = checks[:tapes:tapes], checks[tapes:tapes+levels:tapes+levels]
	if len(checks) > tapes+levels {
		found.AwayTold = checks[tapes+levels]
	}
}

// oneDirection reports whether all distances lie in about one direction.
func (p *Photo) oneDirection() bool {
	for i, a := range p.Tapes {
		for _, b := range p.Tapes[:i] {
			if p.between(a, b) > oneDirection*degree {
				return false
			}
		}
	}
	return true
}

// between is the angle between two distances in the photo, at most a quarter turn.
func (p *Photo) between(a, b Distance) float64 {
	along := func(t Distance) (x, y float64) {
		return p.Picks[t.To].X - p.Picks[t.From].X, p.Picks[t.To].Y - p.Picks[t.From].Y
	}
	ax, ay := along(a)
	bx, by := along(b)
	cross, dot := float64(ax*by)-float64(ay*bx), float64(ax*bx)+float64(ay*by)
	return elementary.Atan2(math.Abs(cross), math.Abs(dot))
}
