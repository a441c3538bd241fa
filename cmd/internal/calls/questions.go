package calls

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/page"
	"fullfree/render/picture"
	"fullfree/solve"
	"fullfree/solve/find"
	"fullfree/solve/tolerance"
)

// EffectsOf are what turning the ends of a run does, and the result that they are of; the error is ErrNoEnd where it has
// none.
func (in *Input) EffectsOf() (effects render.Effects, result *solve.Result, err error) {
	if result, err = in.Check(); err != nil {
		return effects, nil, err
	}
	in.Mechanism.LimitEffects(result)
	effects.Centerings = in.Mechanism.Centerings()
	if effects.Rods, err = in.Mechanism.Effects(result); err == nil {
		effects.Cables, err = in.Mechanism.CableEffects(result)
	}
	if err == nil && len(effects.Rods)+len(effects.Cables) == 0 {
		err = ErrNoEnd
	}
	return effects, result, err
}

// ErrExact is the error of a run of which nothing may be out.
var ErrExact = errors.New("the file says of nothing how far it may be out: write tolerance { points = 0.3 ... }, or tolerance = 0.3 in a part, a rod or a stop (fullfree help tolerances)")

// report is the answer to a question that a report answers.
func (b *Bench) report(found *page.Setting, write func(w io.Writer) error) Answer {
	var report render.Passages
	if err := write(&report); err != nil {
		return Refused(Failed, "%s", linkage.Printable(err.Error()))
	}
	return told(func(w io.Writer) error { return page.ToldJSON(w, b.hash, report.List, found) })
}

// unfit answers that something can't be done with the run.
func unfit(err error) Answer { return Refused(Unfit, "%s", faultText(err)) }

// compare puts the run as filed beside what the page tries.
func (b *Bench) compare(ask *Asked) Answer {
	if err := b.filed.addBands(); err != nil {
		return unfit(err)
	}
	variants := []render.Variant{b.filed.variant()}
	for _, one := range append(append([]Asked{}, ask.Beside...), *ask) {
		t, err := b.setting(&one)
		switch {
		case err != nil:
			return Refused(Wrong, "%s", err)
		case t == b.filed:
			continue
		case t.fault != "":
			return Refused(Unfit, "%s", t.fault)
		}
		v := t.variant()
		v.Name = strings.ReplaceAll(t.key, " ", ", ")
		variants = append(variants, v)
	}
	if len(variants) == 1 {
		return Refused(Unfit, "nothing is tried, so there is nothing to compare: turn an end or set a stop first")
	}
	return b.report(nil, func(w io.Writer) error { return render.CompareReport(w, b.name, variants) })
}

// effect tells what a turn of every end does to the run as it is set.
func (b *Bench) effect(ask *Asked) Answer {
	t, instead := b.judgedAs(ask)
	if instead != nil {
		return *instead
	}
	effects, result, err := t.in.EffectsOf()
	if err != nil {
		return unfit(err)
	}
	return b.report(nil, func(w io.Writer) error { return render.EffectReport(w, b.title(t), result, effects, false) })
}

// judgedAs is the setting that the page tries; or what to answer where there is none.
func (b *Bench) judgedAs(ask *Asked) (*tried, *Answer) {
	t, err := b.setting(ask)
	switch {
	case err != nil:
		a := Refused(Wrong, "%s", err)
		return nil, &a
	case t.fault != "":
		a := Refused(Unfit, "%s", t.fault)
		return nil, &a
	}
	return t, nil
}

// title is the name of the file, and what is tried of it.
func (b *Bench) title(t *tried) string {
	if t == b.filed {
		return b.name
	}
	return b.name + " with " + strings.ReplaceAll(t.key, " ", ", ")
}

// rig searches for the best setting of the run, from as it is filed.
func (b *Bench) rig(*Asked) Answer {
	in := b.filed.in
	found, err := in.Rig(b.progress)
	if err != nil {
		return unfit(err)
	}
	var best *page.Setting
	if found.Found && !found.Settings[0].AsFiled() {
		best = newSetting()
		for _, t := range found.Settings[0].Turns {
			best.Turns[t.End.String()] = t.Turns
		}
		for _, s := range found.Settings[0].Stops {
			best.Stops[s.Stop.Name] = s.At
		}
	}
	return b.report(best, func(w io.Writer) error { return render.RigReport(w, b.name, in.Run, found, render.RigOptions{}) })
}

func newSetting() *page.Setting {
	return &page.Setting{Turns: map[string]float64{}, Stops: map[string]float64{}, Varies: map[string]float64{}}
}

// errAircraft tells what can be asked of one run alone.
var errAircraft = errors.New("that is asked of one run, not of the aircraft: show the run's own file")

// find searches for the dimensions that make the run work, from as it is filed.
func (b *Bench) find(ask *Asked) Answer {
	in := b.filed.in
	if in.Run.Aircraft != nil {
		return unfit(errAircraft)
	}
	found, err := find.Search(in.Mechanism, find.Options{Rods: ask.Rods, Survey: in.Survey, Progress: b.progress})
	if err != nil {
		return unfit(err)
	}
	var best *page.Setting
	if found.Found && found.Settings[0].Changed > 0 {
		best = newSetting()
		for _, v := range found.Settings[0].Values {
			switch {
			case !v.Changes():
			case v.End != nil:
				best.Turns[v.End.String()] = v.Is[0]
			case v.Vary.Among != nil:
				best.Varies[v.Vary.Of] = choiceOf(v.Vary, v.Is)
			default:
				best.Varies[v.Vary.Of] = v.Is[0]
			}
		}
	}
	return b.report(best, func(w io.Writer) error { return render.FindReport(w, b.name, in.Run, found, render.FindOptions{}) })
}

// choiceOf is the number of the choice that has such values.
func choiceOf(v *linkage.Vary, is []float64) float64 {
	for i, values := range v.Among {
		same := true
		for k := range values {
			same = same && values[k] == is[k]
		}
		if same {
			return float64(i)
		}
	}
	return 0
}

// tolerance draws builds of the run as it is filed.
func (b *Bench) tolerance(ask *Asked) Answer {
	in := b.filed.in
	if in.Run.Aircraft != nil {
		return unfit(errAircraft)
	}
	builds := ask.Builds
	if builds == 0 {
		builds = bookBuilds
	}
	if builds < 1 || builds > tolerance.MostBuilds {
		return Refused(Wrong, "from 1 to %d builds can be drawn, and %d are asked for", tolerance.MostBuilds, builds)
	}
	answer, err := tolerance.Run(in.Mechanism, tolerance.Options{Builds: builds, Seed: 1, AsDrilled: ask.AsDrilled, Progress: b.progress})
	if errors.Is(err, tolerance.ErrExact) {
		err = ErrExact
	}
	if err != nil {
		return unfit(err)
	}
	return b.report(nil, func(w io.Writer) error { return render.ToleranceReport(w, b.name, answer, render.ToleranceOptions{}) })
}

// progress tells how far what is being answered is.
func (b *Bench) progress(done, of int) {
	if b.Progress != nil {
		b.Progress(done, of)
	}
}

// charts draws the charts of what moves, as it is set.
func (b *Bench) charts(ask *Asked) Answer {
	t, s, instead := b.settled(ask)
	if instead != nil {
		return *instead
	}
	result, sweep := t.result, s.sweep
	if t.in.Run.Aircraft != nil {
		return unfit(errAircraft)
	}
	drawn, err := picture.ChartPictures(result, sweep, sweep.Course(), "charts")
	if err != nil {
		return Refused(Failed, "%s", linkage.Printable(err.Error()))
	}
	return told(func(w io.Writer) error {
		return page.ChartsJSON(w, b.hash, fmt.Sprintf("Over the travel of %s", sweep.Control.Name), drawn)
	})
}
