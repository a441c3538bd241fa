package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// servedWorkbench is a workbench over a file, served as the command serves it.
type servedWorkbench struct {
	*workbench
	t    *testing.T
	path string
	url  string
}

func serveWorkbench(t testing.TB, text string) *servedWorkbench {
	t.Helper()
	path := filepath.Join(t.TempDir(), "run.hcl")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return serveFile(t, path)
}

// serveFile is serveWorkbench of a file that is there.
func serveFile(t testing.TB, path string) *servedWorkbench {
	t.Helper()
	b, err := newWorkbench(streams{err: io.Discard}, path)
	require.NoError(t, err)
	server := httptest.NewUnstartedServer(nil)
	server.Config.Handler = guard(b.handler(), addressOf(anyPort, server.Listener.Addr()).hosts, b.tellPanic)
	server.Start()
	t.Cleanup(server.Close)
	s := &servedWorkbench{workbench: b, path: path, url: server.URL}
	s.t, _ = t.(*testing.T)
	return s
}

// reply is what came back.
type reply struct {
	status int
	header http.Header
	body   string
}

// ask asks as the page does, changed by change.
func (s *servedWorkbench) ask(path, body string, change func(*http.Request)) reply {
	s.t.Helper()
	method := http.MethodPost
	if body == "" {
		method = http.MethodGet
	}
	r, err := http.NewRequest(method, s.url+path, strings.NewReader(body))
	require.NoError(s.t, err)
	r.Header.Set("Origin", s.url)
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	r.Header.Set(tokenHeader, s.token)
	if body != "" {
		r.Header.Set("Content-Type", "application/json")
	}
	if change != nil {
		change(r)
	}
	answer, err := http.DefaultClient.Do(r)
	require.NoError(s.t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(s.t, err)
	return reply{answer.StatusCode, answer.Header, string(text)}
}

// answered asks what is answered, and reads the answer.
func (s *servedWorkbench) answered(path, body string, into any) {
	s.t.Helper()
	got := s.ask(path, body, nil)
	require.Equal(s.t, http.StatusOK, got.status, got.body)
	decode(s.t, got.body, into)
}

// page is the page's token and the hash that it knows.
func (s *servedWorkbench) page() (token, hash string) {
	s.t.Helper()
	var known struct{ Hash string }
	s.answered("/workbench", "", &known)
	return s.token, known.Hash
}

// address is what the command would print.
func (s *servedWorkbench) address() string { return s.url + "/#" + s.token }

func (s *servedWorkbench) file() string {
	s.t.Helper()
	text, err := os.ReadFile(s.path)
	require.NoError(s.t, err)
	return string(text)
}

// printed takes what a command prints while it runs.
type printed struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (p *printed) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.Write(b)
}

func (p *printed) String() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.String()
}

// serving runs the command until the test is done with it, and returns what
// ends it and gives its exit status.
func serving(t *testing.T, args ...string) (out, err *printed, end func() int) {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	out, err = &printed{}, &printed{}
	ended := make(chan int, 1)
	go func() { ended <- serveUntil(ctx, serveCommand(), streams{strings.NewReader(""), out, err}, args) }()
	end = sync.OnceValue(func() int {
		stop()
		select {
		case status := <-ended:
			return status
		case <-time.After(10 * time.Second):
			t.Error("it doesn't end")
			return -1
		}
	})
	t.Cleanup(func() { end() })
	require.Eventually(t, func() bool { return strings.HasSuffix(out.String(), "\n") || strings.HasSuffix(err.String(), "\n") }, 10*time.Second, 5*time.Millisecond)
	return out, err, end
}

func TestServeCommand(t *testing.T) {
	workFolder(t)
	for _, args := range [][]string{{"demo/pedals-unequal.hcl"}, {"demo/pedals-unequal.hcl", "--listen", "localhost:0"}} {
		out, said, end := serving(t, args...)
		require.Regexp(t, `^http://(127\.0\.0\.1|\[::1\]):\d+/#[0-9a-f]{32}\n$`, out.String(), said.String())
		address, token, _ := strings.Cut(strings.TrimSpace(out.String()), "#")
		get := func(path, token string) (int, string) {
			r, err := http.NewRequest(http.MethodGet, address+path, nil)
			require.NoError(t, err)
			r.Header.Set(tokenHeader, token)
			page, err := http.DefaultClient.Do(r)
			require.NoError(t, err)
			defer page.Body.Close()
			text, err := io.ReadAll(page.Body)
			require.NoError(t, err)
			return page.StatusCode, string(text)
		}
		status, text := get("", "")
		assert.Equal(t, http.StatusOK, status)
		assert.NotContains(t, text, "Pedals, as found")
		assert.NotContains(t, text, token)
		status, text = get("workbench", token)
		assert.Equal(t, http.StatusOK, status)
		assert.Contains(t, text, "Pedals, as found")
		status, text = get("workbench", "")
		assert.Equal(t, http.StatusUnauthorized, status)
		assert.NotContains(t, text, "Pedals")
		assert.Equal(t, exitOK, end())
		assert.Contains(t, said.String(), "Ctrl-C ends it")
		assert.NotContains(t, said.String(), "CAREFUL")
		_, err := http.Get(address)
		assert.Error(t, err, "it has ended")
	}
}

func TestServeTellsOfAnOpenAddress(t *testing.T) {
	workFolder(t)
	out, said, end := serving(t, "pedals.hcl", "--listen", ":0")
	require.NotEmpty(t, out.String(), said.String())
	port := regexp.MustCompile(`:(\d+)/`).FindStringSubmatch(out.String())
	require.NotNil(t, port)
	assert.Contains(t, said.String(), "CAREFUL: this is not for this machine alone. Who reaches port "+port[1]+" of this machine and has the\naddress below")
	assert.Equal(t, exitOK, end())
}

func TestServeUsage(t *testing.T) {
	workFolder(t)
	taken, err := net.Listen("tcp", anyPort)
	require.NoError(t, err)
	defer taken.Close()
	require.NoError(t, os.WriteFile("faulty.hcl", []byte(bars+"rod {"), 0o644))
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, "fullfree serve: a file is missing"},
		{[]string{"-"}, "fullfree serve: a file is needed: standard input can't be watched, nor be saved into"},
		{[]string{"a.hcl", "b.hcl"}, "fullfree serve: one file at a time"},
		{[]string{"nowhere.hcl"}, "fullfree serve: can't read nowhere.hcl: there is no such file"},
		{[]string{"."}, "fullfree serve: can't read .:"},
		{[]string{"faulty.hcl"}, "faulty.hcl:"},
		{[]string{"pedals.hcl", "--listen", taken.Addr().String()}, "fullfree serve: can't serve at " + taken.Addr().String()},
		{[]string{"pedals.hcl", "--listen", "nothing"}, "fullfree serve: --listen nothing: HOST:PORT is wanted, such as 127.0.0.1:8080"},
		{[]string{"pedals.hcl", "--listen", ""}, "fullfree serve: --listen : HOST:PORT is wanted"}, // which would be every address
		{[]string{"pedals.hcl", "--listen", "127.0.0.1:99999"}, "fullfree serve: can't serve at 127.0.0.1:99999: "},
		{[]string{"pedals.hcl", "--opn"}, `fullfree serve: there is no flag --opn; did you mean "--open"?`},
	} {
		got := fullfree("", append([]string{"serve"}, c.args...)...)
		assert.Equal(t, exitFailed, got.status, c.args)
		assert.Empty(t, got.out, c.args)
		assert.True(t, strings.HasPrefix(got.err, c.want), "%v: %s", c.args, got.err)
	}
	var said bytes.Buffer
	status := serveUntil(t.Context(), serveCommand(), streams{nil, brokenWriter{}, &said}, []string{"pedals.hcl"})
	assert.Equal(t, exitFailed, status)
	assert.Contains(t, said.String(), "can't write to standard output")
}

// Where there is no way to open a browser, the address is still there.
func TestServeThatCantOpenABrowser(t *testing.T) {
	workFolder(t)
	t.Setenv("PATH", t.TempDir())
	out, said, end := serving(t, "pedals.hcl", "--open")
	require.Eventually(t, func() bool { return strings.Contains(said.String(), "the browser could not be opened: ") }, 10*time.Second, 5*time.Millisecond)
	assert.NotEmpty(t, out.String())
	assert.Equal(t, exitOK, end())
}

func TestListenFault(t *testing.T) {
	assert.Equal(t, "in use", listenFault(&net.OpError{Op: "listen", Err: errors.New("in use")}))
}

// Every example of the help serves.
func TestServeExamplesWork(t *testing.T) {
	workFolder(t)
	t.Setenv("PATH", t.TempDir()) // lest it opens a browser
	t.Chdir("demo")
	_, examples, _ := strings.Cut(fullfree("", "help", "serve").out, "\nExamples:")
	ran := 0
	for _, line := range strings.Split(examples, "\n") {
		words, ok := strings.CutPrefix(line, "  fullfree serve ")
		if !ok {
			continue
		}
		ran++
		out, said, end := serving(t, strings.Fields(strings.Replace(words, ":8080", ":0", 1))...)
		assert.NotEmpty(t, out.String(), "%s: %s", line, said)
		assert.Equal(t, exitOK, end(), line)
	}
	assert.NotZero(t, ran)
}
