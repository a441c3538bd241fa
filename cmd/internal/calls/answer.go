package calls

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"fullfree/linkage"
	"fullfree/render/page"
	"fullfree/solve"
)

// Status is how a call was answered.
type Status int

const (
	Done     Status = iota
	Wrong           // what is asked isn't what a page asks
	Unfit           // it can't be done with the file as it is, or so set
	Conflict        // the file has changed meanwhile
	Failed          // it could not be written, or told
	Dropped         // nobody waits for it any more
)

// Answer is what a call gets: JSON, but where the call is for a file.
type Answer struct {
	Status Status
	Body   []byte
}

// Refused is an answer that isn't what was asked for: why, in words.
func Refused(status Status, format string, args ...any) Answer {
	body, _ := json.Marshal(struct { // a string can be
		Error string `json:"error"`
	}{fmt.Sprintf(format, args...)})
	return Answer{status, body}
}

// Answer answers a call that a page makes, after a look at the file; body is what the page
// tries (Asked), or empty where the call takes none. One for which gone says that nobody
// waits any more is given up; gone may be nil.
func (b *Bench) Answer(call string, body []byte, gone func() bool) Answer {
	if serve, known := unfiled[call]; known {
		return serve(body)
	}
	var ask Asked
	if len(body) > 0 {
		if err := readObject(body, &ask); err != nil {
			return Refused(Wrong, "this is not what the page asks: %s", linkage.Printable(err.Error()))
		}
	}
	serve, known := map[string]func(*Asked) Answer{
		"workbench": b.data,
		"file":      func(*Asked) Answer { return b.file() },
		"try":       b.try,
		"picture":   b.picture,
		"pose":      b.pose,
		"save":      b.save,
		"compare":   b.compare,
		"effect":    b.effect,
		"rig":       b.rig,
		"find":      b.find,
		"tolerance": b.tolerance,
		"charts":    b.charts,
		"check":     b.check,
		"book":      b.book,
		"sheet":     b.sheet,
		"full-size": b.fullSize,
	}[call]
	if !known {
		return Refused(Wrong, "there is no such call")
	}
	b.look() // which whoever asks next wants too
	b.dropped = gone
	defer func() { b.dropped = nil }()
	return serve(&ask)
}

// readObject reads one JSON object with the fields of v alone.
func readObject(body []byte, v any) error {
	in := json.NewDecoder(bytes.NewReader(body))
	in.DisallowUnknownFields()
	if err := in.Decode(v); err != nil {
		return err
	}
	if _, err := in.Token(); !errors.Is(err, io.EOF) {
		return errors.New("more follows after what was asked")
	}
	return nil
}

// told is the answer that write writes.
func told(write func(w io.Writer) error) Answer {
	var body bytes.Buffer
	if err := write(&body); err != nil {
		return Refused(Failed, "%s", linkage.Printable(err.Error()))
	}
	return Answer{Done, body.Bytes()}
}

func (b *Bench) inShort() page.Workbench {
	return page.Workbench{File: b.name, Hash: b.hash, Version: Version, Faults: faultText(b.trouble), Filed: b.filed.variant()}
}

func (b *Bench) data(ask *Asked) Answer {
	if !ask.Lean {
		if err := b.filed.addBands(); err != nil {
			return unfit(err)
		}
	}
	return told(func(w io.Writer) error { return page.WorkbenchJSON(w, b.inShort()) })
}

func (b *Bench) file() Answer {
	return told(func(w io.Writer) error { return page.FileState(w, b.hash, faultText(b.trouble)) })
}

// fault answers that a setting can't be judged.
func (b *Bench) fault(why string) *Answer {
	a := told(func(w io.Writer) error { return page.TrialFault(w, b.hash, why) })
	return &a
}

// settled finds the setting that is asked for and where it stands; or what to
// answer where there is none.
func (b *Bench) settled(ask *Asked) (*tried, *pose, *Answer) {
	if ask.Hash != "" && ask.Hash != b.hash { // what is tried belongs to another file: the page reads this one first
		a := b.file()
		return nil, nil, &a
	}
	t, err := b.setting(ask)
	if err != nil {
		a := Refused(Wrong, "%s", err)
		return nil, nil, &a
	}
	if t.fault != "" {
		return nil, nil, b.fault(t.fault)
	}
	s, err := t.poseAt(ask.whereAsked(t.in.Run))
	if err != nil {
		return nil, nil, b.fault(faultText(err))
	}
	return t, s, nil
}

// standing is where a setting stands; ok is false where that can't be found.
// filed is where the run as filed stands with the controls there, nil where it
// can't.
func (b *Bench) poseAnswer(t *tried, s *pose) (pose page.WorkbenchPose, filed *pose, ok bool) {
	pose = page.WorkbenchPose{Run: t.in.Run, Sweep: s.sweep, At: s.at}
	if pose.Sample, ok = s.sweep.Sample(s.at[s.moves.Index]); !ok || t == b.filed {
		return pose, s, ok
	}
	filed, err := b.filed.poseAt(b.filed.in.Run.Controls[s.moves.Index], s.at)
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
func (b *Bench) pose(ask *Asked) Answer {
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
func (b *Bench) try(ask *Asked) Answer {
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
		FiledTravel: make([]*solve.Sweep, len(t.in.Run.Controls)), Writes: t.writes, Unsaveable: t.unsaveable(), NoBands: !t.banded() && !ask.Lean,
	}
	if filed != nil {
		trial.FiledTravel = b.filed.travels(filed)
	}
	return told(func(w io.Writer) error { return page.TrialJSON(w, trial) })
}

// picture answers the picture of a setting.
func (b *Bench) picture(ask *Asked) Answer {
	t, s, instead := b.settled(ask)
	if instead != nil {
		return *instead
	}
	if t.in.Run.Aircraft != nil {
		return told(func(w io.Writer) error { return page.PicturesJSON(w, b.hash, t.pictures(s), ask.Pictures) })
	}
	return told(func(w io.Writer) error { return page.PictureJSON(w, b.hash, t.result, s.sweep, ask.Picture) })
}

// save writes a setting into the file.
func (b *Bench) save(ask *Asked) Answer {
	changed := func() bool { return b.trouble != nil || ask.Hash != b.hash }
	conflict := Refused(Conflict, "%s has changed meanwhile, so nothing was saved: look at it as it is now, and set it again", linkage.Printable(b.name))
	switch {
	case ask.Hash == "":
		return Refused(Wrong, "the hash of the file that the page knows is missing")
	case changed():
		return conflict
	}
	t, err := b.setting(ask)
	switch {
	case err != nil:
		return Refused(Wrong, "%s", err)
	case t.fault != "":
		return Refused(Unfit, "nothing was saved, for so set the run can't be judged: %s", t.fault)
	}
	if why := t.unsaveable(); why != "" {
		return Refused(Unfit, "nothing was saved. %s", why)
	}
	var lost []string
	if len(t.writes) > 0 {
		b.dropped = nil // what is written is looked at whoever waits
		files, err := b.filed.in.Rewritten(linkage.RewriteNumbers, t.changes())
		if err != nil {
			return Refused(Unfit, "nothing was saved: %s", faultText(err))
		}
		if b.look(); changed() { // judging takes its time
			return conflict
		}
		var failed string
		lost, failed, err = b.files.Replace(files)
		switch {
		case errors.Is(err, ErrChanged):
			b.look()
			return conflict
		case err != nil:
			return Refused(Failed, "can't write %s: %s", linkage.Printable(failed), err)
		}
		b.look()
	}
	return told(func(w io.Writer) error { return page.Saved(w, b.hash, t.writes, lost) })
}
