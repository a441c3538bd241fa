package photo

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve/photo/sample"
)

// inPhoto is a plate photographed from 2 m a little askew, with what a careful builder
// measures.
func inPhoto(tapes ...[2]int) Photo {
	c := sample.Phone(2000)
	c.Lens, c.Yaw, c.Pitch, c.Roll = 40, 3, -2, 1
	p := taken(c, plate)
	p.tape(plate, tapes...)
	p.gauge(plate, 0, 1)
	p.Away = 2000
	return p
}

// What is told of a meter of a run from 2 m is of use: millimeters with the sides and the
// diagonals taped, and more the less is taped.
func TestErrorsToldAreOfUse(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 0))
	was := 0.0
	for _, few := range []struct {
		tapes          int
		largest, shape float64 // at most
	}{{6, 5.5, 3.5}, {4, 9, 8}, {2, 32, 25}, {1, 40, 30}} {
		p := inPhoto(corners[:few.tapes]...)
		found := adjusted(t, shaken(p, random))
		t.Logf("%d distances: largest %.1f mm, shape %.1f mm, tilt %.1f to within %.1f degrees, told %v; away %.0f to within %.0f mm",
			few.tapes, found.Largest, found.LargestShape, found.Tilt, 2*found.TiltSigma, found.TiltTold, found.Away, 2*found.AwaySigma)
		assert.Less(t, found.Largest, few.largest)
		assert.Less(t, found.LargestShape, few.shape)
		assert.Greater(t, found.Largest, was)
		assert.LessOrEqual(t, found.LargestShape, found.Largest)
		was = found.Largest
	}
}

// Distances in four directions tell the tilt; one doesn't, and says so.
func TestTiltIsTold(t *testing.T) {
	for _, tilt := range []float64{0, 8, 15} {
		c := sample.Phone(1200)
		c.Yaw = tilt
		p := taken(c, plate)
		p.tape(plate, corners...)
		p.Away = 1200
		found := adjusted(t, p)
		assert.True(t, found.TiltTold)
		assert.InDelta(t, tilt, found.Tilt, 2*found.TiltSigma+0.5)
		assert.InDelta(t, 1200, found.Away, 2*found.AwaySigma)
		assert.False(t, found.OneDirection)
		p.Tapes = p.Tapes[:1]
		assert.False(t, adjusted(t, p).TiltTold)
		p.Tapes = nil
		p.tape(plate, [2]int{0, 1}, [2]int{3, 2}, [2]int{6, 4})
		assert.True(t, adjusted(t, p).OneDirection)
	}
}

// Without a level all may be turned as a camera is held; with one the turn is known.
func TestLevelTellsTheTurn(t *testing.T) {
	p := inPhoto(corners...)
	with := adjusted(t, p)
	assert.InDelta(t, 1, with.Roll, 2*with.RollSigma)
	p.Levels = nil
	without := adjusted(t, p)
	assert.InDelta(t, rollSigma, without.RollSigma, 0.1)
	assert.Greater(t, without.Largest, 3*with.Largest)
	assert.InEpsilon(t, with.LargestShape, without.LargestShape, 0.35)
}

// A distance that was misread stands out, as does a distance of the camera that can't be.
func TestSlipStandsOut(t *testing.T) {
	p := inPhoto(corners...)
	for i, c := range adjusted(t, p).Tapes {
		assert.False(t, c.Doubtful || c.AsDoubtful, "tape %d", i)
		assert.True(t, c.Checked)
	}
	p.Tapes[4].Is += 100
	found := adjusted(t, p)
	assert.True(t, found.Tapes[4].Doubtful, "%+v", found.Tapes)
	assert.Greater(t, found.Tapes[4].Standardized, 3.0)
	assert.InDelta(t, 100, found.Tapes[4].Misclosure, 15)

	p = inPhoto(corners...)
	p.Away = 4500
	found = adjusted(t, p)
	assert.Less(t, found.Away, 4500.0)
	assert.NotZero(t, found.AwayTold.Standardized)
	one := inPhoto(corners[0])
	assert.False(t, adjusted(t, one).Tapes[0].Checked)
}

// A gross slip is told by its own name, whichever it is, and isn't adjusted to.
func TestGrossSlipIsNamed(t *testing.T) {
	for _, by := range []float64{0.1, 1 / 2.54, 0.5, 2, 2.54, 10, 25.4} {
		for i := range corners {
			p := inPhoto(corners...)
			p.Tapes[i].Is *= by
			_, err := Adjust(p)
			assert.Equal(t, &Error{Reason: Disagrees, Of: OfTape, At: i}, err, "times %g", by)
		}
	}
	for _, by := range []float64{45, 90, 180, -90} {
		p := inPhoto(corners...)
		p.Levels[0].Is += by
		_, err := Adjust(p)
		assert.Equal(t, &Error{Reason: Disagrees, Of: OfLevel}, err, "%g degrees", by)
	}
}

// A distance between holes whose depths aren't told is longer than it looks, in the mean.
func TestGuessedDepthsMakeDistancesLonger(t *testing.T) {
	p := inPhoto(corners[0])
	p.Picks[0].DepthKnown, p.Picks[1].DepthKnown = false, false
	told := adjusted(t, inPhoto(corners[0])).Places[1]
	guessed := adjusted(t, p).Places[1]
	assert.InDelta(t, -2.0*guessedDepth*guessedDepth/(2*900), guessed.X-told.X, 0.02)
	assert.Greater(t, guessed.SigmaX, told.SigmaX)
}

// What doesn't matter changes nothing: the unit, the order of picks, how the phone was
// turned.
func TestWhatDoesNotMatter(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 0))
	p := shaken(inPhoto(corners[:4]...), random)
	want := adjusted(t, p)

	inches := p
	const inch = 25.4
	inches.Unit, inches.Away = inch, p.Away/inch
	inches.Tapes = slices.Clone(p.Tapes)
	for i := range inches.Tapes {
		inches.Tapes[i].Is /= inch
		inches.Tapes[i].Within /= inch
	}
	inches.Picks = slices.Clone(p.Picks)
	for i := range inches.Picks {
		inches.Picks[i].Depth /= inch
	}
	got := adjusted(t, inches)
	assert.InEpsilon(t, want.Largest, got.Largest*inch, 1e-6)
	assert.InEpsilon(t, want.Away, got.Away*inch, 1e-6)
	assert.InEpsilon(t, want.Tilt, got.Tilt, 1e-6)

	last := len(p.Picks) - 1
	back := func(i int) int { return last - i }
	other := p
	other.Datum, other.Picks = back(p.Datum), slices.Clone(p.Picks)
	slices.Reverse(other.Picks)
	other.Tapes, other.Levels = slices.Clone(p.Tapes), slices.Clone(p.Levels)
	for i := range other.Tapes {
		other.Tapes[i].From, other.Tapes[i].To = back(p.Tapes[i].From), back(p.Tapes[i].To)
	}
	other.Levels[0].From, other.Levels[0].To = back(p.Levels[0].From), back(p.Levels[0].To)
	reversed := adjusted(t, other)

	turned := p // a quarter turn to the left: what was right is up
	turned.Width, turned.Height = p.Height, p.Width
	turned.Picks = slices.Clone(p.Picks)
	for i, k := range p.Picks {
		turned.Picks[i].X, turned.Picks[i].Y = k.Y, p.Width-k.X
	}
	turned.Levels = slices.Clone(p.Levels)
	turned.Levels[0].Is += 90
	upright := adjusted(t, turned)
	for i, at := range want.Places {
		in, r, u := got.Places[i], reversed.Places[back(i)], upright.Places[i]
		assert.InDelta(t, at.X, in.X*inch, 1e-5)
		assert.InDelta(t, at.Y, in.Y*inch, 1e-5)
		assert.InDelta(t, at.SigmaX, in.SigmaX*inch, 1e-5)
		assert.InDelta(t, at.X, r.X, 1e-5)
		assert.InDelta(t, at.SigmaY, r.SigmaY, 1e-5)
		assert.InDelta(t, at.X, u.Y, 1e-5)
		assert.InDelta(t, -at.Y, u.X, 1e-5)
		assert.InDelta(t, at.SigmaX, u.SigmaY, 1e-5)
		assert.InDelta(t, at.Shape, u.Shape, 1e-5)
	}
}

func TestDatumIsExact(t *testing.T) {
	p := inPhoto(corners...)
	p.Datum = 5
	found := adjusted(t, p)
	assert.Equal(t, Place{}, found.Places[5])
	requireAt(t, &p, found, plate, 4)
}

// The same photo gives the same bytes.
func TestSamePhotoSameBytes(t *testing.T) {
	p := inPhoto(corners...)
	a, err := json.Marshal(adjusted(t, p))
	require.NoError(t, err)
	b, err := json.Marshal(adjusted(t, p))
	require.NoError(t, err)
	assert.Equal(t, string(a), string(b))
}

func TestWhatCannotBeAdjusted(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		change func(p *Photo)
		want   Error
	}{
		"nothing":          {func(p *Photo) { *p = Photo{} }, Error{Reason: NoSize}},
		"no unit":          {func(p *Photo) { p.Unit = 0 }, Error{Reason: NoSize}},
		"width":            {func(p *Photo) { p.Width = math.Inf(1) }, Error{Reason: NotFinite}},
		"no tape":          {func(p *Photo) { p.Tapes = nil }, Error{Reason: NothingScales}},
		"no datum":         {func(p *Photo) { p.Datum = 8 }, Error{Reason: OutOfRange}},
		"no picks":         {func(p *Photo) { p.Picks = nil }, Error{Reason: OutOfRange}},
		"picks":            {func(p *Photo) { p.Picks = make([]Pick, mostPicks+1) }, Error{Reason: TooMany, Of: OfPick, At: mostPicks}},
		"pick":             {func(p *Photo) { p.Picks[3].Y = nan }, Error{Reason: NotFinite, Of: OfPick, At: 3}},
		"outside":          {func(p *Photo) { p.Picks[3].X = -1 }, Error{Reason: OutsidePhoto, Of: OfPick, At: 3}},
		"deep":             {func(p *Photo) { p.Picks[2].Depth = 1e300 }, Error{Reason: TooFine, Of: OfPick, At: 2}},
		"near":             {func(p *Photo) { p.Picks[2].Depth = 1900 }, Error{Reason: TooNear, Of: OfPick, At: 2}},
		"tape to nothing":  {func(p *Photo) { p.Tapes[1].To = -1 }, Error{Reason: OutOfRange, Of: OfTape, At: 1}},
		"tape to itself":   {func(p *Photo) { p.Tapes[1].To = p.Tapes[1].From }, Error{Reason: SamePlace, Of: OfTape, At: 1}},
		"tape of nothing":  {func(p *Photo) { p.Tapes[1].Is = 0 }, Error{Reason: NotPositive, Of: OfTape, At: 1}},
		"tape too fine":    {func(p *Photo) { p.Tapes[1].Is = 1e-9 }, Error{Reason: TooFine, Of: OfTape, At: 1}},
		"tape exact":       {func(p *Photo) { p.Tapes[1].Within = 0 }, Error{Reason: NotPositive, Of: OfTape, At: 1}},
		"tape no number":   {func(p *Photo) { p.Tapes[1].Is = nan }, Error{Reason: NotFinite, Of: OfTape, At: 1}},
		"level to nothing": {func(p *Photo) { p.Levels[0].To = 99 }, Error{Reason: OutOfRange, Of: OfLevel}},
		"level infinite":   {func(p *Photo) { p.Levels[0].Is = math.Inf(-1) }, Error{Reason: NotFinite, Of: OfLevel}},
		"away":             {func(p *Photo) { p.Away = -3 }, Error{Reason: NotPositive, Of: OfAway}},
		"far away":         {func(p *Photo) { p.Away = 1e30 }, Error{Reason: TooFine, Of: OfAway}},
	} {
		p := inPhoto(corners...)
		c.change(&p)
		found, err := Adjust(p)
		assert.Nil(t, found, name)
		assert.Equal(t, &c.want, err, name)
		assert.NotContains(t, err.Error(), ": \n")
	}
	for reason := NoSize; reason <= Unsettled; reason++ {
		assert.NotEmpty(t, reasonNames[reason])
	}
}

// Whatever it is given, it answers with numbers or tells why it can't.
func TestHuntHostilePhotos(t *testing.T) {
	settled, made, unsettled := 0, 0, 0
	hunt.Each(t, 400, func(t *testing.T, random *rand.Rand) {
		p := hostile(random)
		found, err := Adjust(p)
		made++
		if err != nil {
			var told *Error
			require.ErrorAs(t, err, &told)
			require.NotEmpty(t, told.Error())
			if told.Reason == Unsettled {
				unsettled++
			}
			return
		}
		settled++
		// JSON has neither NaN nor infinity.
		_, err = json.Marshal(found)
		require.NoError(t, err, "%+v", p)
		for _, at := range found.Places {
			require.False(t, at.SigmaX < 0 || at.SigmaY < 0 || at.Shape < 0)
		}
	})
	t.Logf("%d of %d adjusted, %d don't settle", settled, made, unsettled)
}

// hostile is a photo of anything: every other one of what passes for a photo, with
// distances that nearly fit.
func hostile(random *rand.Rand) Photo {
	odd := []float64{0, -1, 1e-300, 1e300, math.NaN(), math.Inf(1), math.MaxFloat64, 1e6, 0.1}
	wild := random.IntN(2) == 0
	figure := func(usual float64) float64 {
		switch random.IntN(60) {
		case 0:
			if wild {
				return odd[random.IntN(len(odd))]
			}
		case 1:
			if wild {
				return usual * math.Pow(10, 12*random.Float64()-6)
			}
		}
		return usual
	}
	picks := 2 + random.IntN(12)
	index := func() int {
		if wild && random.IntN(60) == 0 {
			return random.IntN(3*picks) - picks
		}
		return random.IntN(picks)
	}
	p := Photo{Width: figure(4000), Height: figure(3000), Unit: figure(1), Datum: index()}
	for range picks {
		p.Picks = append(p.Picks, Pick{X: figure(4000 * random.Float64()), Y: figure(3000 * random.Float64()), Depth: figure(200 * random.NormFloat64()), DepthKnown: random.IntN(2) == 0})
	}
	ends := func() (from, to int) {
		if from, to = index(), index(); from == to && !wild {
			to = (to + 1) % picks
		}
		return from, to
	}
	scale, slips := math.Exp(random.NormFloat64()-1.5), 0.1*random.Float64()
	for range random.IntN(9) {
		from, to := ends()
		is := 500.0
		if !wild {
			z := p.Picks[to].Depth - p.Picks[from].Depth
			is = math.Hypot(z, scale*p.pixelsApart(from, to))
		}
		p.Tapes = append(p.Tapes, Distance{from, to, figure(is * math.Exp(slips*random.NormFloat64())), figure(math.Exp(3 * random.NormFloat64()))})
	}
	for range random.IntN(4) {
		from, to := ends()
		is := 720 * random.NormFloat64()
		if !wild {
			a, b := p.Picks[from], p.Picks[to]
			is = math.Atan2(a.Y-b.Y, b.X-a.X)/degree + 5*random.NormFloat64()
		}
		p.Levels = append(p.Levels, Level{from, to, figure(is), figure(math.Exp(3 * random.NormFloat64()))})
	}
	if random.IntN(2) == 0 {
		p.Away, p.AwayWithin = figure(1000*math.Exp(random.NormFloat64())), figure(0)
	}
	return p
}

func BenchmarkAdjust(b *testing.B) {
	for _, picks := range []int{12, 40} {
		p := manyPicks(picks, picks/3)
		b.Run(fmt.Sprintf("picks=%d", picks), func(b *testing.B) {
			for range b.N {
				adjusted(b, p)
			}
		})
	}
	p := manyPicks(mostPicks, mostTapes)
	b.Run("most", func(b *testing.B) {
		for range b.N {
			adjusted(b, p)
		}
	})
}

// manyPicks is a photo of so many holes, with so many distances.
func manyPicks(picks, tapes int) Photo {
	random := rand.New(rand.NewPCG(9, uint64(picks)))
	var holes []hole
	for range picks {
		holes = append(holes, hole{900 * (random.Float64() - 0.5), 600 * (random.Float64() - 0.5), 50 * random.NormFloat64()})
	}
	c := sample.Phone(2000)
	c.Yaw, c.Pitch = 4, 3
	p := taken(c, holes)
	for len(p.Tapes) < tapes {
		if a, b := random.IntN(picks), random.IntN(picks); holes[a].to(holes[b]) > 200 {
			p.tape(holes, [2]int{a, b})
		}
	}
	p.gauge(holes, 0, 1)
	return shaken(p, random)
}
