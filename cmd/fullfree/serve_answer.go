package main

import (
	"bytes"
	"net/http"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

// handler serves the page and what it asks.
func (b *bench) handler() http.Handler {
	paths := map[string]http.HandlerFunc{
		"/":        only(http.MethodGet, b.locked(b.page)),
		"/bench":   only(http.MethodGet, b.locked(b.data)),
		"/file":    only(http.MethodGet, b.locked(b.file)),
		"/try":     only(http.MethodPost, b.asking(b.tryIt)),
		"/picture": only(http.MethodPost, b.asking(b.picture)),
		"/pose":    only(http.MethodPost, b.asking(b.pose)),
		"/save":    only(http.MethodPost, withToken(b.token, b.asking(b.save))),
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if serve, ok := paths[r.URL.Path]; ok {
			serve(w, r)
			return
		}
		refuse(w, http.StatusNotFound, "there is nothing here")
	})
}

// locked serves one request at a time, after a look at the file.
func (b *bench) locked(serve http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.look()
		serve(w, r)
	}
}

// asking reads what the page tries, and then serves it.
func (b *bench) asking(serve func(http.ResponseWriter, *asked)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		var ask asked
		if !bodyOf(w, r, &ask) {
			return
		}
		b.locked(func(w http.ResponseWriter, _ *http.Request) { serve(w, &ask) })(w, r)
	}
}

// tell answers with what write writes.
func tell(w http.ResponseWriter, write func(*bytes.Buffer) error) {
	var body bytes.Buffer
	if err := write(&body); err != nil {
		refuse(w, http.StatusInternalServerError, "%s", linkage.Printable(err.Error()))
		return
	}
	answer(w, http.StatusOK, body.Bytes())
}

func (b *bench) told() render.Bench {
	return render.Bench{File: b.name, Hash: b.hash, Version: version, Faults: faultText(b.trouble), Filed: b.filed.variant()}
}

func (b *bench) page(w http.ResponseWriter, _ *http.Request) {
	var page bytes.Buffer
	policy, err := render.BenchPage(&page, b.told(), b.token)
	if err != nil {
		refuse(w, http.StatusInternalServerError, "%s", linkage.Printable(err.Error()))
		return
	}
	w.Header().Set("Content-Security-Policy", policy+"; frame-ancestors 'none'")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(http.StatusOK)
	_, _ = w.Write(page.Bytes())
}

func (b *bench) data(w http.ResponseWriter, _ *http.Request) {
	tell(w, func(body *bytes.Buffer) error { return render.BenchJSON(body, b.told()) })
}

func (b *bench) file(w http.ResponseWriter, _ *http.Request) {
	tell(w, func(body *bytes.Buffer) error { return render.FileState(body, b.hash, faultText(b.trouble)) })
}

// settled finds the setting that is asked for and where it stands. Where there
// is none, that has been answered.
func (b *bench) settled(w http.ResponseWriter, ask *asked) (*tried, *stance) {
	if ask.Hash != "" && ask.Hash != b.hash { // what is tried belongs to another file: the page reads this one first
		tell(w, func(body *bytes.Buffer) error { return render.FileState(body, b.hash, faultText(b.trouble)) })
		return nil, nil
	}
	t, err := b.setting(ask)
	if err != nil {
		refuse(w, http.StatusBadRequest, "%s", err)
		return nil, nil
	}
	fault := t.fault
	var s *stance
	if fault == "" {
		if s, err = t.stand(ask.stands(t.in.run)); err != nil {
			fault = faultText(err)
		}
	}
	if fault != "" {
		tell(w, func(body *bytes.Buffer) error { return render.TrialFault(body, b.hash, fault) })
		return nil, nil
	}
	return t, s
}

// standing is where a setting stands, and the run as filed beside it.
func (b *bench) standing(t *tried, s *stance) (render.BenchStand, *stance, bool) {
	stand := render.BenchStand{Run: t.in.run, Sweep: s.sweep, At: s.at}
	var ok bool
	if stand.Position, ok = s.sweep.Position(s.at[s.moves.Index]); !ok {
		return stand, nil, false
	}
	filed := s
	if t != b.filed {
		var err error
		if filed, err = b.filed.stand(b.filed.in.run.Controls[s.moves.Index], s.at); err != nil {
			return stand, nil, true
		}
		if slices.Equal(filed.at, s.at) {
			if at, ok := filed.sweep.Position(filed.at[s.moves.Index]); ok {
				at.Values = under(s.sweep.Series(), filed.sweep.Series(), at.Values)
				stand.Filed = &at
			}
		}
	}
	return stand, filed, true
}

// under puts values of one sweep's series under the same series of another: they
// are alike, but that a pair of cables that hangs slack nowhere has no free turn,
// which is none then.
func under(series, other []solve.Series, values []*float64) []*float64 {
	list, k := make([]*float64, len(series)), 0
	for i, s := range series {
		for k < len(other) && other[k].Kind == solve.SeriesFree && (s.Kind != solve.SeriesFree || s.Name != other[k].Name) {
			k++
		}
		if k < len(other) && other[k].Kind == s.Kind && other[k].Name == s.Name {
			list[i] = values[k]
			k++
		} else if s.Kind == solve.SeriesFree {
			list[i] = new(float64)
		}
	}
	return list
}

// pose answers where the run stands.
func (b *bench) pose(w http.ResponseWriter, ask *asked) {
	t, s := b.settled(w, ask)
	if t == nil {
		return
	}
	tell(w, func(body *bytes.Buffer) error {
		stand, _, ok := b.standing(t, s)
		if !ok {
			return render.TrialFault(body, b.hash, unsolved)
		}
		return render.StandJSON(body, b.hash, stand)
	})
}

// unsolved tells that a position was not found.
const unsolved = "where the run stands so could not be found"

// tryIt answers what a setting comes to.
func (b *bench) tryIt(w http.ResponseWriter, ask *asked) {
	t, s := b.settled(w, ask)
	if t == nil {
		return
	}
	tell(w, func(body *bytes.Buffer) error {
		stand, filed, ok := b.standing(t, s)
		if !ok {
			return render.TrialFault(body, b.hash, unsolved)
		}
		trial := render.Trial{
			Hash: b.hash, Filed: b.filed.variant(), Now: t.variant(), Stand: stand, Travel: t.travels(s),
			Writes: t.writes, Unsaveable: t.unsaveable(), NoBands: !t.banded(),
		}
		switch {
		case filed == nil:
			trial.FiledTravel = make([]*solve.Sweep, len(trial.Travel))
		default:
			trial.FiledTravel = b.filed.travels(filed)
		}
		return render.TrialJSON(body, trial)
	})
}

// picture answers the picture of a setting.
func (b *bench) picture(w http.ResponseWriter, ask *asked) {
	t, s := b.settled(w, ask)
	if t == nil {
		return
	}
	tell(w, func(body *bytes.Buffer) error {
		return render.PictureJSON(body, b.hash, t.result, s.sweep, ask.Picture)
	})
}

// save writes a setting into the file.
func (b *bench) save(w http.ResponseWriter, ask *asked) {
	switch {
	case ask.Hash == "":
		refuse(w, http.StatusBadRequest, "the hash of the file that the page knows is missing")
		return
	case b.changedFrom(w, ask.Hash):
		return
	}
	t, err := b.setting(ask)
	switch {
	case err != nil:
		refuse(w, http.StatusBadRequest, "%s", err)
		return
	case t.fault != "":
		refuse(w, http.StatusUnprocessableEntity, "nothing was saved, for so set the run can't be judged: %s", t.fault)
		return
	}
	if why := t.unsaveable(); why != "" {
		refuse(w, http.StatusUnprocessableEntity, "nothing was saved. %s", why)
		return
	}
	if len(t.writes) > 0 {
		text, err := b.text(t)
		if err != nil {
			refuse(w, http.StatusUnprocessableEntity, "nothing was saved: %s", faultText(err))
			return
		}
		if b.look(); b.changedFrom(w, ask.Hash) { // judging takes its time
			return
		}
		if err := writeWhole(b.name, text); err != nil {
			refuse(w, http.StatusInternalServerError, "can't write %s: %s", linkage.Printable(b.name), reason(err))
			return
		}
		b.look()
	}
	tell(w, func(body *bytes.Buffer) error { return render.Saved(body, b.hash, t.writes) })
}

// changedFrom refuses to save where the file isn't what the page knows.
func (b *bench) changedFrom(w http.ResponseWriter, hash string) bool {
	if b.trouble == nil && hash == b.hash {
		return false
	}
	refuse(w, http.StatusConflict, "%s has changed meanwhile, so nothing was saved: look at it as it is now, and set it again", linkage.Printable(b.name))
	return true
}
