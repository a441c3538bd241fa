package tolerance

import (
	"fullfree/linkage"
	"fullfree/solve"
)

// shop is where builds are made, rigged and judged: the quick way, at the places of the run as
// drawn, or the long way, each as any run that is checked. One goroutine uses it.
type shop interface {
	// pinned is how long each rod must be with the pins in, by Run.Rods; 0: they don't tell.
	pinned(b *solve.Build, into []float64) ([]float64, error)
	// where is where a stop's part stands when what is required is reached.
	where(b *solve.Build, r *solve.Reaching) (float64, bool)
	judge(b *solve.Build, everywhere bool, into *solve.Judged) error
}

// quickShop makes them the quick way.
type quickShop struct{ *solve.Builder }

func (s quickShop) pinned(b *solve.Build, into []float64) ([]float64, error) {
	return s.Pinned(b, into)
}

func (s quickShop) where(b *solve.Build, r *solve.Reaching) (float64, bool) { return s.Where(b, r) }

func (s quickShop) judge(b *solve.Build, everywhere bool, into *solve.Judged) error {
	return s.Judge(b, everywhere, into)
}

// longShop makes them the long way.
type longShop struct {
	m      *solve.Mechanism
	labels []solve.Judgement // of the run without anything out
}

func newLongShop(m *solve.Mechanism, nominal *solve.Result) *longShop {
	return &longShop{m: m, labels: nominal.Labels}
}

// built is the run as it is built.
func (s *longShop) built(b *solve.Build) (*solve.Mechanism, error) {
	run, err := s.m.Run().With(b.Edits(s.m.Run())...)
	if err != nil {
		return nil, err
	}
	return solve.Compile(run)
}

func (s *longShop) pinned(b *solve.Build, into []float64) ([]float64, error) {
	into = into[:0]
	for range s.m.Run().Rods {
		into = append(into, 0)
	}
	n, err := s.built(b)
	if err != nil {
		return into, nil // it doesn't close as it is; how it is judged tells
	}
	for i, r := range n.Pinned() {
		if r.Length != nil {
			into[i] = *r.Length
		}
	}
	return into, nil
}

// whereHalvings is how often the way to a figure is halved: to rounding.
const whereHalvings = 60

func (s *longShop) where(b *solve.Build, r *solve.Reaching) (float64, bool) {
	n, err := s.built(b)
	if err != nil {
		return 0, false
	}
	run := n.Run()
	control, stop := run.Control(r.Control), run.Stop(r.Stop)
	// Without the stop, so that it may be passed.
	bare, err := run.With(linkage.Bare(), linkage.Remove(stop))
	if err != nil {
		return 0, false
	}
	if n, err = solve.Compile(bare); err != nil {
		return 0, false
	}
	w, err := n.Sweep(bare.Control(control), nil)
	if err != nil {
		return 0, false
	}
	reads := func(x float64, of linkage.Subject) (float64, bool) {
		p, ok := w.At(x)
		switch {
		case !ok:
			return 0, false
		case of.Output != nil:
			return p.Reading(of.Output), true
		}
		return p.Travel(of.Part), true
	}
	low, high := 0.0, w.Explored[1]
	if r.From < 0 {
		high = w.Explored[0]
	}
	of, ok := bare.Subject(r.Of)
	at, ok1 := reads(low, of)
	to, ok2 := reads(high, of)
	if !ok || !ok1 || !ok2 || (at-r.Figure)*(to-r.Figure) > 0 {
		return 0, false
	}
	for range whereHalvings {
		middle := low + 0.5*(high-low)
		v, ok := reads(middle, of)
		if !ok {
			return 0, false
		}
		if (v-r.Figure)*(at-r.Figure) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	part := bare.Part(stop.Of)
	for _, c := range bare.Controls {
		if c.Of == part && c == bare.Control(control) {
			return low, true
		}
	}
	return reads(low, linkage.Subject{Part: part})
}

func (s *longShop) judge(b *solve.Build, _ bool, into *solve.Judged) error {
	into.Closes, into.Requirements, into.Labels = false, into.Requirements[:0], into.Labels[:0]
	n, err := s.built(b)
	if err != nil {
		return nil
	}
	r, err := n.Check()
	if err != nil {
		return nil
	}
	into.Closes = true
	for i := range r.Requirements {
		into.Requirements = append(into.Requirements, solve.FigureOf(&r.Requirements[i]))
	}
	for i := range s.labels {
		f := solve.Figure{}
		for k := range r.Labels {
			if r.Labels[k].Requirement.Name == s.labels[i].Requirement.Name && (r.Labels[k].Requirement.Of[0].Control == nil) == (s.labels[i].Requirement.Of[0].Control == nil) {
				f = solve.FigureOf(&r.Labels[k])
			}
		}
		into.Labels = append(into.Labels, f)
	}
	return nil
}
