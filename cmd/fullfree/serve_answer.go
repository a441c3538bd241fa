package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"slices"
	"sync"
	"sync/atomic"

	"fullfree/linkage"
	"fullfree/render/page"
	"fullfree/solve"
)

// handler serves the page and what it asks.
func (b *workbench) handler() http.Handler {
	opened := sync.OnceFunc(b.opened)
	withToken := func(next http.HandlerFunc) http.HandlerFunc { return withToken(b.token, opened, next) }
	paths := map[string]http.HandlerFunc{
		"/":          only(http.MethodGet, bare),
		"/workbench": only(http.MethodGet, withToken(b.telling(b.data))),
		"/file":      only(http.MethodGet, withToken(b.telling(b.file))),
		"/try":       only(http.MethodPost, withToken(b.asking(b.try))),
		"/picture":   only(http.MethodPost, withToken(b.asking(b.picture))),
		"/pose":      only(http.MethodPost, withToken(b.asking(b.pose))),
		"/save":      only(http.MethodPost, withToken(b.asking(b.save))),
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if serve, ok := paths[r.URL.Path]; ok {
			serve(w, r)
			return
		}
		refused(http.StatusNotFound, "there is nothing here").send(w)
	})
}

// bare serves the page with nothing of the run in it, to whoever asks.
func bare(w http.ResponseWriter, _ *http.Request) {
	policy := ""
	page := told(func(w io.Writer) (err error) {
		policy, err = page.WorkbenchPage(w)
		return err
	})
	if page.status == http.StatusOK {
		page.policy = policy
	}
	page.send(w)
}

// telling serves what is told without being asked anything.
func (b *workbench) telling(serve func() answer) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) { b.alone(r.Context(), serve).send(w) }
}

// asking reads what the page tries, and then serves it.
func (b *workbench) asking(serve func(*asked) answer) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		var ask asked
		if !bodyOf(w, r, &ask) {
			return
		}
		b.alone(r.Context(), func() answer { return serve(&ask) }).send(w)
	}
}

// alone makes one answer at a time, after a look at the file. It is sent later:
// who is slow to take it holds nobody up. One that nobody waits for any more, since
// the page was closed or tries something else by now, is given up.
func (b *workbench) alone(wanted context.Context, serve func() answer) answer {
	var gone atomic.Bool // which is quicker to ask than a context
	defer context.AfterFunc(wanted, func() { gone.Store(true) })()
	b.mu.Lock()
	defer b.mu.Unlock()
	if wanted.Err() != nil {
		return refused(http.StatusServiceUnavailable, "nobody waits for this any more")
	}
	b.look() // which whoever asks next wants too
	b.dropped = gone.Load
	defer func() { b.dropped = nil }()
	return serve()
}

// told is the answer that write writes.
func told(write func(w io.Writer) error) answer {
	var body bytes.Buffer
	if err := write(&body); err != nil {
		return refused(http.StatusInternalServerError, "%s", linkage.Printable(err.Error()))
	}
	return answer{status: http.StatusOK, body: body.Bytes()}
}

func (b *workbench) inShort() page.Workbench {
	return page.Workbench{File: b.name, Hash: b.hash, Version: version, Faults: faultText(b.trouble), Filed: b.filed.variant()}
}

func (b *workbench) data() answer {
	return told(func(w io.Writer) error { return page.WorkbenchJSON(w, b.inShort()) })
}

func (b *workbench) file() answer {
	return told(func(w io.Writer) error { return page.FileState(w, b.hash, faultText(b.trouble)) })
}

// fault answers that a setting can't be judged.
func (b *workbench) fault(why string) *answer {
	a := told(func(w io.Writer) error { return page.TrialFault(w, b.hash, why) })
	return &a
}

// settled finds the setting that is asked for and where it stands; or what to
// answer where there is none.
func (b *workbench) settled(ask *asked) (*tried, *pose, *answer) {
	if ask.Hash != "" && ask.Hash != b.hash { // what is tried belongs to another file: the page reads this one first
		a := b.file()
		return nil, nil, &a
	}
	t, err := b.setting(ask)
	if err != nil {
		a := refused(http.StatusBadRequest, "%s", err)
		return nil, nil, &a
	}
	if t.fault != "" {
		return nil, nil, b.fault(t.fault)
	}
	s, err := t.poseAt(ask.whereAsked(t.in.run))
	if err != nil {
		return nil, nil, b.fault(faultText(err))
	}
	return t, s, nil
}

// standing is where a setting stands; ok is false where that can't be found.
// filed is where the run as filed stands with the controls there, nil where it
// can't.
func (b *workbench) poseAnswer(t *tried, s *pose) (pose page.WorkbenchPose, filed *pose, ok bool) {
	pose = page.WorkbenchPose{Run: t.in.run, Sweep: s.sweep, At: s.at}
	if pose.Sample, ok = s.sweep.Sample(s.at[s.moves.Index]); !ok || t == b.filed {
		return pose, s, ok
	}
	filed, err := b.filed.poseAt(b.filed.in.run.Controls[s.moves.Index], s.at)
	if err != nil {
		return pose, nil, true
	}
	if slices.Equal(filed.at, s.at) {
		if at, ok := filed.sweep.Sample(filed.at[s.moves.Index]); ok {
			at.Values = under(s.sweep.Series(), filed.sweep.Series(), at.Values)
			pose.Filed = &at
		}
	}
	return pose, filed, true
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

// unsolved tells that a position was not found.
const unsolved = "where the run stands so could not be found"

// pose answers where the run stands.
func (b *workbench) pose(ask *asked) answer {
	t, s, instead := b.settled(ask)
	if instead != nil {
		return *instead
	}
	pose, _, ok := b.poseAnswer(t, s)
	if !ok {
		return *b.fault(unsolved)
	}
	return told(func(w io.Writer) error { return page.PoseJSON(w, b.hash, pose) })
}

// try answers what a setting comes to.
func (b *workbench) try(ask *asked) answer {
	t, s, instead := b.settled(ask)
	if instead != nil {
		return *instead
	}
	pose, filed, ok := b.poseAnswer(t, s)
	if !ok {
		return *b.fault(unsolved)
	}
	trial := page.Trial{
		Hash: b.hash, Filed: b.filed.variant(), Now: t.variant(), Pose: pose, Travel: t.travels(s),
		FiledTravel: make([]*solve.Sweep, len(t.in.run.Controls)), Writes: t.writes, Unsaveable: t.unsaveable(), NoBands: !t.banded(),
	}
	if filed != nil {
		trial.FiledTravel = b.filed.travels(filed)
	}
	return told(func(w io.Writer) error { return page.TrialJSON(w, trial) })
}

// picture answers the picture of a setting.
func (b *workbench) picture(ask *asked) answer {
	t, s, instead := b.settled(ask)
	if instead != nil {
		return *instead
	}
	if t.in.run.Aircraft != nil {
		return told(func(w io.Writer) error { return page.PicturesJSON(w, b.hash, t.pictures(s), ask.Pictures) })
	}
	return told(func(w io.Writer) error { return page.PictureJSON(w, b.hash, t.result, s.sweep, ask.Picture) })
}

// save writes a setting into the file.
func (b *workbench) save(ask *asked) answer {
	changed := func() bool { return b.trouble != nil || ask.Hash != b.hash }
	conflict := refused(http.StatusConflict, "%s has changed meanwhile, so nothing was saved: look at it as it is now, and set it again", linkage.Printable(b.name))
	switch {
	case ask.Hash == "":
		return refused(http.StatusBadRequest, "the hash of the file that the page knows is missing")
	case changed():
		return conflict
	}
	t, err := b.setting(ask)
	switch {
	case err != nil:
		return refused(http.StatusBadRequest, "%s", err)
	case t.fault != "":
		return refused(http.StatusUnprocessableEntity, "nothing was saved, for so set the run can't be judged: %s", t.fault)
	}
	if why := t.unsaveable(); why != "" {
		return refused(http.StatusUnprocessableEntity, "nothing was saved. %s", why)
	}
	var lost []string
	if len(t.writes) > 0 {
		b.dropped = nil // what is written is looked at whoever waits
		files, err := b.filed.in.rewritten(linkage.RewriteNumbers, t.changes())
		if err != nil {
			return refused(http.StatusUnprocessableEntity, "nothing was saved: %s", faultText(err))
		}
		if b.look(); changed() { // judging takes its time
			return conflict
		}
		var failed string
		lost, failed, err = replaceAll(files)
		switch {
		case errors.Is(err, errChanged):
			b.look()
			return conflict
		case err != nil:
			return refused(http.StatusInternalServerError, "can't write %s: %s", linkage.Printable(failed), reason(err))
		}
		b.look()
	}
	return told(func(w io.Writer) error { return page.Saved(w, b.hash, t.writes, lost) })
}
