package page

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/picture"
	"fullfree/solve"
)

// RunPicture is one run of an aircraft on the workbench.
type RunPicture struct {
	Member *linkage.Member
	Result *solve.Result // what the aircraft's tells of it
	Sweep  *solve.Sweep  // of Result
	Whole  *solve.Sweep  // of the aircraft, which Sweep tells the run's part of
	Moves  []string      // the controls that move it
}

// runPictureJSON is one picture, and what of a position of the aircraft moves it.
type runPictureJSON struct {
	Name    string   `json:"name"`
	Title   string   `json:"title"`
	Moves   []string `json:"moves"`   // the controls that move it
	Bodies  []int    `json:"bodies"`  // by the picture's: which of the aircraft's frames
	Series  []int    `json:"series"`  // by the picture's: which of the aircraft's values
	Picture string   `json:"picture"` // which it is
	SVG     *string  `json:"svg"`     // null where the page has it
}

// PicturesJSON writes the pictures of the runs of an aircraft, as PictureJSON does one; shown
// are those that the page shows, by the names of the runs.
func PicturesJSON(w io.Writer, hash string, list []RunPicture, shown map[string]string) error {
	out := struct {
		Hash     string           `json:"hash"`
		Pictures []runPictureJSON `json:"pictures"`
	}{hash, []runPictureJSON{}}
	for _, p := range list {
		if err := errors.Join(p.Result.Whole(), p.Sweep.Whole(), p.Whole.Whole()); err != nil {
			return err
		}
		drawn, err := picture.Live(p.Result, p.Sweep, picture.LiveOptions{ID: fmt.Sprintf("live-%d", p.Member.Index)})
		if err != nil {
			return err
		}
		one := runPictureJSON{
			Name: p.Member.Name, Title: p.Member.Name + ": " + figure.Clean(p.Result.Run.Name), Moves: append([]string{}, p.Moves...),
			Bodies: bodiesIn(p), Series: seriesIn(p), Picture: fmt.Sprintf("%x", sha256.Sum256(drawn)),
		}
		if one.Picture != shown[one.Name] {
			text := string(bytes.TrimSpace(drawn))
			one.SVG = &text
		}
		out.Pictures = append(out.Pictures, one)
	}
	return writeCompact(w, out)
}

// bodiesIn tells which of the aircraft's bodies those of a run are: both are in one order.
func bodiesIn(p RunPicture) []int {
	list, own := []int{}, p.Sweep.Bodies()
	same := func(a, b solve.Body) bool {
		if a.Part != nil && b.Part != nil {
			return a.Part.Name == b.Part.Name
		}
		return a.Rod != nil && b.Rod != nil && a.Rod.Name == b.Rod.Name
	}
	for i, body := range p.Whole.Bodies() {
		if k := len(list); k < len(own) && same(body, own[k]) {
			list = append(list, i)
		}
	}
	return list
}

// seriesIn tells which of the aircraft's series those of a run are: both are in one order.
func seriesIn(p RunPicture) []int {
	list, own := []int{}, p.Sweep.Series()
	for i, s := range p.Whole.Series() {
		if k := len(list); k < len(own) && s.Kind == own[k].Kind && s.Name == own[k].Name && s.End == own[k].End {
			list = append(list, i)
		}
	}
	return list
}
