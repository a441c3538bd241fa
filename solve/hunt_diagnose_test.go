package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// plantedError is one thing that is off, and what was read.
type plantedError struct {
	about, culprit string
	text           string
	blocks         []rigged
	bounded        bool // every reading is within what it reads to of the truth
}

// misread gives true readings the errors that readings have: normal ones of the
// standard deviation within/2, or bounded ones, of rounding or of an even spread.
func misread(rng *rand.Rand, truth []float64, within float64) (read []float64, bounded bool, how string) {
	kind := rng.IntN(4)
	for _, v := range truth {
		switch kind {
		case 0, 1:
			v += within / 2 * rng.NormFloat64()
		case 2:
			v = math.Round(v/within) * within
		case 3:
			v += within * (2*rng.Float64() - 1)
		}
		read = append(read, v)
	}
	return read, kind > 1, []string{"normal", "normal", "rounded", "even"}[kind]
}

// readAt lays out readings over the travel.
func readAt(rng *rand.Rand, most float64) (at []float64) {
	n := 1 + rng.IntN(10)
	for k := range n {
		x := 0.0
		if n > 1 {
			x = math.Round(most * (2*float64(k)/float64(n-1) - 1))
		}
		at = append(at, x)
	}
	return at
}

// strength is by how many standard deviations an error changes the reading that it
// changes most: from one that hardly shows to one that nobody overlooks.
func strength(rng *rand.Rand) float64 {
	return math.Copysign(math.Exp(rng.Float64()*math.Log(60)), rng.Float64()-0.5)
}

// plantInChain sets one dimension of a chain off, or one gauge; false where that
// chain isn't to be read then, or where the error would be more than a builder makes.
func plantInChain(rng *rand.Rand) (p plantedError, ok bool) {
	const mostOff = 20 // mm, of arms of 30 to 80
	c := newChain(rng)
	names, offs := c.culprits()
	last := len(c.pivots) - 1
	within := []float64{0.05, 0.1, 0.2, 0.4, 1}[rng.IntN(5)]
	p.text = c.text()
	p.blocks = []rigged{{name: "m", of: chainPart(last), within: within, at: readAt(rng, 20)}}
	if last > 1 && rng.IntN(4) == 0 {
		p.blocks = append(p.blocks, rigged{name: "n", of: chainPart(1 + rng.IntN(last-1)), within: within, at: readAt(rng, 20)})
	}
	reads := func(made chain) (all [][]float64, ok bool) {
		for _, b := range p.blocks {
			var list []float64
			for _, x := range b.at {
				turned, least, closes := made.turns(c, x)
				if !closes || least < 8 {
					return nil, false
				}
				list = append(list, turned[b.of[0]-'a'])
			}
			all = append(all, list)
		}
		return all, true
	}
	drawn, _ := reads(c)
	off := strength(rng) * within / 2
	truth := drawn
	if which := rng.IntN(len(names) + len(p.blocks)); which >= len(names) {
		i := which - len(names)
		p.culprit = p.blocks[i].name + ".zero"
		for k := range truth[i] {
			truth[i][k] += off
		}
	} else {
		p.culprit = names[which]
		const little = 1e-3 // mm
		beside, closes := reads(offs[which](little))
		if !closes {
			return p, false
		}
		most := 0.0
		for i := range beside {
			for k := range beside[i] {
				most = math.Max(most, math.Abs(beside[i][k]-drawn[i][k])/little)
			}
		}
		if off /= most; !(math.Abs(off) < mostOff) {
			return p, false
		}
		if truth, ok = reads(offs[which](off)); !ok {
			return p, false
		}
	}
	how := ""
	for i := range p.blocks {
		p.blocks[i].read, p.bounded, how = misread(rng, truth[i], within)
	}
	if len(p.blocks) > 1 {
		p.bounded = false // the kinds of the blocks may differ
	}
	p.about = fmt.Sprintf("%s off by %.4g, errors %s\n%s%s", p.culprit, off, how, p.text, p.blocks[0].text())
	return p, true
}

// plantInSpace sets one dimension of a run of any kind off, heights too; what it
// then reads, this program works out.
func plantInSpace(t *testing.T, rng *rand.Rand) (p plantedError, ok bool) {
	kind := manyLoops[rng.IntN(len(manyLoops))]
	d := kind.draw(rng)
	for m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) < 2*stiffEnough; m = newModel(d, "lever") {
		d = kind.draw(rng)
	}
	p.text = d.with(control("lever", -4, 4)).text()
	run, s := sweepOf(t, p.text)
	if s.High-s.Low < 8 {
		return p, false
	}
	dims := run.Dimensions()
	culprit := dims[rng.IntN(len(dims))]
	p.culprit = culprit.String()
	truth := culprit.Value() + 0.03*run.Size()*(2*rng.Float64()-1)
	setting := linkage.Setting{Dimension: p.culprit, Value: num(truth)}
	changed, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(p.text)}, setting)
	if err != nil {
		return p, false
	}
	m, err := solve.Compile(changed)
	if err != nil {
		return p, false
	}
	if s, err := m.Sweep(changed.Controls[0], nil); err != nil || s.High-s.Low < 8 {
		return p, false
	}
	var moving []*linkage.Part
	for _, part := range run.Parts {
		if part.Motion != linkage.Fixed && part.Name != "lever" && !part.Spatial() { // those are read by no one number
			moving = append(moving, part)
		}
	}
	if len(moving) == 0 {
		return p, false
	}
	of := moving[rng.IntN(len(moving))]
	shows := func(at []float64) float64 {
		as := rigged{name: "m", of: of.Name, at: at, within: 1}
		most := 0.0
		drawn, built := as.readFrom(t, p.text), as.readFrom(t, p.text, setting)
		for i, v := range built.read {
			most = math.Max(most, math.Abs(v-drawn.read[i]))
		}
		return most
	}
	at := readAt(rng, 4)
	most := shows(at)
	if most < 1e-4 {
		return p, false // too little to be seen by anything
	}
	b := rigged{name: "m", of: of.Name, at: at, within: 2 * most / math.Abs(strength(rng))}
	b = b.readFrom(t, p.text, setting)
	how := ""
	b.read, p.bounded, how = misread(rng, b.read, b.within)
	p.blocks = []rigged{b}
	p.about = fmt.Sprintf("%s: %s from %v to %v, errors %s\n%s%s", kind.name, p.culprit, culprit.Value(), truth, how, p.text, b.text())
	return p, true
}

// TestHuntDiagnose plants one error, of any kind and size, in runs drawn at random.
// What is off is in group 1: always where every reading is within what it reads to
// of the truth, and in 999 of 1000 cases where the readings' errors are normal. So
// where one thing is named alone, that is it.
func TestHuntDiagnose(t *testing.T) {
	normal, missed, asked, alone := 0, 0, 0, 0
	try := func(t *testing.T, p plantedError) {
		d := diagnosed(t, p.text, p.blocks...)
		group := names(d, 1)
		found := slices.Contains(group, p.culprit)
		if !p.bounded {
			normal++
			if !found {
				missed++
				t.Logf("missed %s\n%v", p.about, group)
			}
		} else if !found {
			assert.Failf(t, "not in group 1", "%v: %s", group, p.about)
		}
		if d.Fits || d.NoneToo {
			return
		}
		if asked++; len(group) == 1 {
			alone++
		}
	}
	hunt.Each(t, 75, func(t *testing.T, rng *rand.Rand) {
		if p, ok := plantInChain(rng); ok {
			try(t, p)
		}
		if rng.IntN(8) == 0 {
			if p, ok := plantInSpace(t, rng); ok {
				try(t, p)
			}
		}
	})
	// 1 in 1000, and no more than three standard deviations (Poisson) above that.
	most := float64(normal) / 1000
	assert.LessOrEqual(t, float64(missed), most+3*math.Sqrt(most)+0.5)
	t.Logf("%d asked, %d named alone; %d of %d with normal errors not in group 1", asked, alone, missed, normal)
}

// TestChainInClosedForm: the chain that errors are planted in moves as this program
// has it, as drawn and with a dimension set otherwise.
func TestChainInClosedForm(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	for range 40 {
		c := newChain(rng)
		names, offs := c.culprits()
		which := rng.IntN(len(names))
		by := 2 * rng.Float64()
		dims := read(t, c.text()).Dimensions()
		i := slices.IndexFunc(dims, func(d linkage.Dimension) bool { return d.String() == names[which] })
		require.GreaterOrEqual(t, i, 0, names[which])
		run, s := sweepOf(t, c.text(), set(names[which], dims[i].Value()+by))
		for _, x := range []float64{-20, -5, 0, 15} {
			turned, _, ok := offs[which](by).turns(c, x)
			require.True(t, ok)
			for i := range turned {
				near(t, turned[i], solveAt(t, s, x).Travel(partNamed(t, run, chainPart(i))), 1e-9, names[which])
			}
		}
	}
}
