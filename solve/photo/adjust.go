package photo

import (
	"math"

	"fullfree/linkage/elementary"
)

const (
	// partShare is how wide a part of the prior's tilt is, as a share of the whole: at 3.3
	// of 8 degrees what a tilt shortens bends by a sixth of a percent within a part.
	partShare = 1 / 2.4
	// partsApart is how far apart their middles are, in their own standard deviations:
	// the sum of bells so far apart is uneven by 1.4 percent (2 exp(-2 pi^2 / 4)).
	partsApart = 2
	// partsTo is how far from square, in standard deviations of the whole, the outermost
	// parts have their middles: those beyond are as good as never.
	partsTo = 2.6
	// leastShare is the share of a part below which it counts for nothing.
	leastShare = 1e-9
)

// Adjust finds the places. The error is an *Error.
func Adjust(p Photo) (*Places, error) {
	if err := p.unfit(); err != nil {
		return nil, err
	}
	return adjustWith(&p, p.usual())
}

// adjustWith is Adjust with what is known beforehand.
func adjustWith(p *Photo, of *prior) (*Places, error) {
	for i, pick := range p.Picks {
		if p.Away > 0 && pick.Depth > nearest*p.Away {
			return nil, &Error{Reason: TooNear, Of: OfPick, At: i}
		}
	}
	n := newNetwork(p, of)
	slipped, by := n.slip()
	if by > grossFrom {
		return nil, n.blame(Disagrees, slipped)
	}
	var found []*settled
	likeliest := math.Inf(-1)
	for _, part := range of.parts() {
		if s := n.settle(&part); s != nil {
			found = append(found, s)
			likeliest = max(likeliest, s.lnLikely)
		}
	}
	all := newMixture(n)
	for _, s := range found {
		if share := elementary.Exp(s.lnLikely - likeliest); share > leastShare {
			all.add(s, share)
		}
	}
	if places := all.places(); places != nil {
		return places, nil
	}
	return nil, n.blame(Unsettled, slipped)
}

// parts are the parts of the prior by tilt: bells on a square grid, that together are the
// bell of the whole.
func (of *prior) parts() []part {
	sigma := float64(partShare * of.sigma[tiltX])
	step := float64(partsApart * sigma)
	reach := float64(partsTo * of.sigma[tiltX])
	spread := float64(of.sigma[tiltX]*of.sigma[tiltX]) - float64(sigma*sigma) // of the middles
	most := int(reach / step)
	var list []part
	for i := -most; i <= most; i++ {
		for j := -most; j <= most; j++ {
			x, y := float64(float64(i)*step), float64(float64(j)*step)
			square := float64(x*x) + float64(y*y)
			if square > reach*reach {
				continue
			}
			one := part{mean: of.mean, sigma: of.sigma, lnShare: -square / (2 * spread)}
			one.mean[tiltX], one.mean[tiltY] = x, y
			one.sigma[tiltX], one.sigma[tiltY] = sigma, sigma
			list = append(list, one)
		}
	}
	return list
}
