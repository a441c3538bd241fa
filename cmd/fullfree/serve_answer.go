package main

import (
	"bytes"
	"context"
	"errors"
	"net/http"
	"runtime/debug"
	"sync"
	"sync/atomic"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render/page"
)

// workbench is what stands behind the page that is served: what answers its calls, and who
// may make them.
type workbench struct {
	std    streams
	token  string
	opened func() // called when somebody with the token first asks for anything

	mu sync.Mutex // the bench answers one call at a time
	*calls.Bench
}

// newWorkbench reads the file of a workbench and judges it.
func newWorkbench(std streams, name string) (*workbench, error) {
	bench, err := calls.Open(disk{}, name)
	if err != nil {
		return nil, err
	}
	return &workbench{std: std, token: newToken(), opened: func() {}, Bench: bench}, nil
}

// disk are the files of this machine.
type disk struct{}

func (disk) Read(name string) ([]byte, error) {
	in := newInput(name)
	return in.readAll(streams{})
}

func (disk) Beside(name string) linkage.Opener { return besideOf(name) }

func (disk) Replace(files []calls.Rewritten) (lost []string, failed string, err error) {
	lost, failed, err = replaceAll(files)
	switch {
	case errors.Is(err, errChanged):
		err = calls.ErrChanged
	case err != nil:
		err = errors.New(reason(err))
	}
	return lost, failed, err
}

// handler serves the page and what it asks.
func (b *workbench) handler() http.Handler {
	opened := sync.OnceFunc(b.opened)
	withToken := func(next http.HandlerFunc) http.HandlerFunc { return withToken(b.token, opened, next) }
	paths := map[string]http.HandlerFunc{"/": only(http.MethodGet, bare)}
	for _, call := range []string{"workbench", "file"} {
		paths["/"+call] = only(http.MethodGet, withToken(b.telling(call)))
	}
	for _, call := range []string{"try", "picture", "pose", "save", "measure", "outline", "photo"} {
		paths["/"+call] = only(http.MethodPost, withToken(b.asking(call)))
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
	var body bytes.Buffer
	policy, err := page.WorkbenchPage(&body)
	if err != nil {
		refused(http.StatusInternalServerError, "%s", linkage.Printable(err.Error())).send(w)
		return
	}
	answer{status: http.StatusOK, policy: policy, body: body.Bytes()}.send(w)
}

// telling serves what is told without being asked anything.
func (b *workbench) telling(call string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) { b.alone(r.Context(), call, nil).send(w) }
}

// asking reads what the page tries, and then serves it.
func (b *workbench) asking(call string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if body, ok := bodyOf(w, r); ok {
			b.alone(r.Context(), call, body).send(w)
		}
	}
}

// alone makes one answer at a time. It is sent later: who is slow to take it holds nobody
// up. One that nobody waits for any more, since the page was closed or tries something else
// by now, is given up.
func (b *workbench) alone(wanted context.Context, call string, body []byte) answer {
	var gone atomic.Bool // which is quicker to ask than a context
	defer context.AfterFunc(wanted, func() { gone.Store(true) })()
	b.mu.Lock()
	defer b.mu.Unlock()
	if wanted.Err() != nil {
		return answerOf(calls.Refused(calls.Dropped, "nobody waits for this any more"))
	}
	return answerOf(b.Answer(call, body, gone.Load))
}

// tellPanic tells of a fault of the program on its terminal.
func (b *workbench) tellPanic(trouble any) {
	b.std.message("fullfree serve: a fault in fullfree itself: %v\n%s\n", trouble, debug.Stack())
}
