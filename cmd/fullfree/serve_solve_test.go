package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"fullfree/cmd/internal/calls"
	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/render"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// allDemos are those for beginners and those of the manual besides.
var allDemos = append(demo.Kinds(), demo.WrongHole, demo.Taped, demo.Unequal, demo.Dual)

// Where the workbench has a run stand is where sweep has it: every part, output and
// place of a body, with rod ends and nuts turned and the other controls held.
func TestHuntPosesAgreeWithSweep(t *testing.T) {
	for k, kind := range allDemos {
		t.Run(kind, func(t *testing.T) {
			text := demoText(t, kind)
			s := serveWorkbench(t, text)
			seed := uint64(k)
			random := rand.New(rand.NewPCG(1, seed))
			for range 2 * hunt.Rounds() {
				in := newInput(s.path)
				require.NoError(t, in.Read([]byte(text)))
				require.NoError(t, in.Adjust())
				turns, at := map[string]float64{}, map[string]float64{}
				var turned []render.Turned
				for _, rod := range in.Run.Rods {
					if len(rod.Ends) > 0 && random.IntN(2) == 0 {
						n := float64(random.IntN(7)-3) / 2
						turns[rod.Ends[0].String()] = n
						turned = append(turned, render.Turned{End: rod.Ends[0], Turns: n})
					}
				}
				for _, c := range in.Run.Cables {
					for _, e := range c.Ends {
						n := float64(random.IntN(3)) / 4 // out: in, the throttle's stop would be past contact
						turns[e.String()] = n
						turned = append(turned, render.Turned{Nut: e, Turns: n})
					}
				}
				run, _, err := calls.TurnEnds(in.Run, turned)
				require.NoError(t, err)
				in.Run = run
				require.NoError(t, in.Compile())
				moves := in.Run.Controls[random.IntN(len(in.Run.Controls))]
				var held []solve.Held
				for _, c := range in.Run.Controls {
					if c != moves { // the demos' held settings can be reached
						h := c.Held[random.IntN(len(c.Held))] * random.Float64()
						held, at[c.Name] = append(held, solve.Held{Control: c, At: h}), h
					}
				}
				sweep, err := in.Mechanism.Sweep(moves, held)
				require.NoError(t, err)
				x := sweep.Low + random.Float64()*(sweep.High-sweep.Low)
				at[moves.Name] = x
				body, err := json.Marshal(calls.Asked{Turns: turns, At: at, Moves: moves.Name})
				require.NoError(t, err)
				var got trialAnswer
				s.answered("/pose", string(body), &got)
				require.Empty(t, got.Fault, "seed %d", seed)
				comparePose(t, sweep, x, got)
				assert.InDelta(t, sweep.Low, got.Stand.Low, 1e-9)
				assert.InDelta(t, sweep.High, got.Stand.High, 1e-9)
			}
		})
	}
}

func comparePose(t *testing.T, sweep *solve.Sweep, x float64, got trialAnswer) {
	t.Helper()
	pose, ok := sweep.At(x)
	require.True(t, ok)
	for i, series := range sweep.Series() {
		v := got.Stand.Position.Values[i]
		switch {
		case series.Kind == solve.SeriesOutput:
			assert.InDelta(t, pose.Reading(series.Output), *v, 1e-9, series.Name)
		case series.Kind == solve.SeriesPart && series.Name == series.Part.Name: // told by one number
			assert.InDelta(t, pose.Travel(series.Part), *v, 1e-9, series.Name)
		}
	}
	for i, body := range sweep.Bodies() {
		f := got.Stand.Position.Frames[12*i : 12*i+12]
		frame := solve.Frame{Turn: [9]float64(f[:9]), Shift: linkage.Vec{X: f[9], Y: f[10], Z: f[11]}}
		if body.Part == nil {
			continue
		}
		for k, p := range body.Part.Points {
			want := pose.Point(linkage.PointRef{Part: body.Part, Point: k})
			assert.InDelta(t, 0, want.Sub(frame.Place(p.At)).Norm(), 1e-9, "%s.%s", body.Part.Name, p.Name)
		}
	}
}

// What is tried and saved is then told by check of the file.
func TestTrialIsWhatCheckTellsOfTheSavedFile(t *testing.T) {
	text := demoText(t, demo.Unequal)
	s := serveWorkbench(t, text)
	tried := s.try(`{"turns":{"right-link.from":-1.5}}`)
	assert.Equal(t, "holds", tried.Verdict.Mark, "as the manual has it")
	assert.Equal(t, "short", tried.Filed.Mark)
	saved := s.save(`{"turns":{"right-link.from":-1.5}}`)
	require.Equal(t, http.StatusOK, saved.status, saved.body)
	checked := fullfree("", "check", s.path)
	assert.Equal(t, exitOK, checked.status)
	assert.Contains(t, checked.out, tried.Verdict.Headline)
	var machine struct{ Requirements []struct{ Says string } }
	decode(t, fullfree("", "check", s.path, "--json").out, &machine)
	for i, r := range tried.Requirements {
		assert.Contains(t, r.Says, machine.Requirements[i].Says)
	}
	// A setting back again gives the very file that it was.
	back := s.save(`{"turns":{"right-link.from":1.5}}`)
	require.Equal(t, http.StatusOK, back.status, back.body)
	assert.Equal(t, text, s.file())
}

// A control that is asked to be where another doesn't let it get stands as far
// as it goes.
func TestControlsStandWhereTheyCan(t *testing.T) {
	s := serveWorkbench(t, demoText(t, "mixer"))
	random := rand.New(rand.NewPCG(2, 3))
	for range 30 {
		at := func() float64 { return (random.Float64() - 0.5) * 120 }
		moves := []string{"collective", "cyclic"}[random.IntN(2)]
		got := s.try(fmt.Sprintf(`{"moves":%q,"at":{"collective":%g,"cyclic":%g}}`, moves, at(), at()))
		require.Empty(t, got.Fault)
		for _, c := range got.Controls {
			require.NotNil(t, c.Low, c.Name)
			stands := got.Stand.At[c.Name]
			slack := calls.ShyOf * 2 * (*c.High - *c.Low)
			assert.True(t, stands >= *c.Low-slack && stands <= *c.High+slack, "%s at %g, from %g to %g", c.Name, stands, *c.Low, *c.High)
		}
	}
}

// Whatever is asked, the answer is JSON, and no fault of the program.
func FuzzTry(f *testing.F) {
	path := filepath.Join(f.TempDir(), "run.hcl")
	require.NoError(f, os.WriteFile(path, []byte(screwed), 0o644))
	b, err := newWorkbench(streams{err: io.Discard}, path)
	require.NoError(f, err)
	handler := b.handler()
	for _, body := range []string{
		`{}`, `null`, `[]`, `{"turns":{"link.from":1.5,"link.to":-0.5},"stops":{"high":26},"at":{"hand":-3.2},"moves":"hand"}`,
		`{"turns":{"link.from":-300}}`, `{"turns":{"link.from":1e5}}`, `{"turns":{"link.from":1e-300}}`, `{"stops":{"high":-1e308}}`,
		`{"at":{"hand":1.7976931348623157e308}}`, `{"at":{"hand":1e999}}`, `{"hash":"x"}`, `{"turns":null,"picture":""}`, "\xff", `{"moves":"\ud800"}`,
	} {
		f.Add([]byte(body))
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		for _, path := range []string{"/try", "/pose", "/picture"} {
			w := httptest.NewRecorder()
			r := httptest.NewRequest(http.MethodPost, path, bytes.NewReader(body))
			r.Header.Set("Content-Type", "application/json")
			r.Header.Set(tokenHeader, b.token)
			handler.ServeHTTP(w, r)
			if !json.Valid(w.Body.Bytes()) {
				t.Fatalf("no JSON: %s", w.Body)
			}
			switch w.Code {
			case http.StatusOK, http.StatusBadRequest, http.StatusRequestEntityTooLarge:
			default:
				t.Fatalf("%d: %s", w.Code, w.Body)
			}
		}
	})
}

// BenchmarkServe is how long an answer takes: of a setting that wasn't tried
// before (try), of its picture, and of where the run stands (pose).
func BenchmarkServe(b *testing.B) {
	for _, kind := range allDemos {
		text := demoText(b, kind)
		s := serveWorkbench(b, text)
		handler := s.handler()
		post := func(b *testing.B, path string, ask calls.Asked) {
			body, err := json.Marshal(ask)
			require.NoError(b, err)
			w := httptest.NewRecorder()
			r := httptest.NewRequest(http.MethodPost, path, bytes.NewReader(body))
			r.Header.Set("Content-Type", "application/json")
			r.Header.Set(tokenHeader, s.token)
			handler.ServeHTTP(w, r)
			if w.Code != http.StatusOK {
				b.Fatalf("%d: %s", w.Code, w.Body)
			}
		}
		run := s.Run()
		b.Run("try/"+kind, func(b *testing.B) {
			for i := range b.N {
				ask := calls.Asked{Turns: map[string]float64{}, At: map[string]float64{run.Controls[0].Name: math.Mod(float64(i), 5)}}
				for _, rod := range run.Rods {
					if len(rod.Ends) > 0 {
						ask.Turns[rod.Ends[0].String()] = math.Mod(float64(i), 1000) / 1000
						break
					}
				}
				for _, c := range run.Cables {
					for _, e := range c.Ends {
						ask.Turns[e.String()] = math.Mod(float64(i), 1000) / 1000
					}
				}
				if len(ask.Turns) == 0 { // nothing can be set: as if the file were new
					var err error
					s.Bench, err = calls.Open(disk{}, s.path)
					require.NoError(b, err)
				}
				post(b, "/try", ask)
			}
		})
		b.Run("picture/"+kind, func(b *testing.B) {
			for range b.N {
				post(b, "/picture", calls.Asked{})
			}
		})
		b.Run("pose/"+kind, func(b *testing.B) {
			for i := range b.N {
				post(b, "/pose", calls.Asked{At: map[string]float64{run.Controls[0].Name: math.Mod(0.1*float64(i), 5)}})
			}
		})
	}
}
