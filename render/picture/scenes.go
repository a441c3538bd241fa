package picture

import (
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// StillScene is the run where the control stands, as a scene for a page on paper: what
// Live draws as a still.
func StillScene(result *solve.Result, sweep *solve.Sweep, at float64) (*paper.Scene, error) {
	l, err := newLive(result, sweep, LiveOptions{At: at, Still: true})
	if err != nil {
		return nil, err
	}
	s := &paper.Scene{Width: l.scene.Width, Height: l.scene.Height}
	for _, lv := range l.drawn {
		for k := range lv.scene.Shapes {
			for i := range lv.scene.Shapes[k] {
				l.put(lv.v, &lv.scene.Shapes[k][i])
			}
		}
		s.Take(lv.scene, paper.Place{})
		for i := range lv.tags {
			tag := &paper.Scene{}
			tag.Put(lv.tags[i].label)
			s.Take(tag, middle(seen(lv.v, l.at, lv.tags[i].mounts...)))
		}
	}
	s.Take(&l.scene, paper.Place{})
	return s, nil
}

// ChartScenes are the charts of a sweep as scenes for a page on paper: those that
// ChartPictures draws, their curves lower, so that more go on a page.
func ChartScenes(result *solve.Result, sweep *solve.Sweep, course *solve.Course) []*paper.Scene {
	const low = 85.0 // sheet units
	var scenes []*paper.Scene
	for _, c := range chartsOf(result, sweep, course) {
		scenes = append(scenes, &c.plotSized(plotAlone, low, true).scene)
	}
	return scenes
}
