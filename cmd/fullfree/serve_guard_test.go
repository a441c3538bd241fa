package main

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestServedPageAllowsItsOwnPartsAlone(t *testing.T) {
	s := serveWorkbench(t, strings.Replace(screwed, `run "Bars"`, `run "</script><script>alert(1)</script>"`, 1))
	page := s.ask("/", "", nil)
	require.Equal(t, http.StatusOK, page.status)
	assert.Equal(t, "text/html; charset=utf-8", page.header.Get("Content-Type"))
	for name, want := range map[string]string{
		"Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
		"X-Frame-Options": "DENY", "Cross-Origin-Resource-Policy": "same-origin",
	} {
		assert.Equal(t, want, page.header.Get(name))
	}
	policy := page.header.Get("Content-Security-Policy")
	hash := func(open, end string) string {
		_, rest, ok := strings.Cut(page.body, open)
		require.True(t, ok)
		text, _, ok := strings.Cut(rest, end)
		require.True(t, ok)
		sum := sha256.Sum256([]byte(text))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	assert.Equal(t, []string{
		"default-src 'none'", "style-src " + hash("<style>", "</style>"), "script-src " + hash("<script>", "</script>"),
		"base-uri 'none'", "form-action 'none'", "connect-src 'self'", "frame-ancestors 'none'",
	}, strings.Split(policy, "; "))
	assert.NotContains(t, page.body, "alert", "nothing of the run is in it")
	assert.NotContains(t, page.body, s.token)
	told := s.ask("/workbench", "", nil)
	assert.Equal(t, "application/json; charset=utf-8", told.header.Get("Content-Type"))
	assert.NotContains(t, told.body, "<script>", "a name stays text, however it is looked at")
	assert.NotRegexp(t, regexp.MustCompile(`\s(style|on[a-z]+)=`), page.body)
	assert.NotContains(t, page.body, "://", "nothing is fetched from anywhere")
	assert.Empty(t, page.header.Values("Access-Control-Allow-Origin"))
}

func TestWhatServeRefuses(t *testing.T) {
	s := serveWorkbench(t, screwed)
	token, hash := s.page()
	body := `{"hash":"` + hash + `","turns":{"link.from":1}}`
	header := func(name, value string) func(*http.Request) {
		return func(r *http.Request) { r.Header.Set(name, value) }
	}
	host := func(name string) func(*http.Request) { return func(r *http.Request) { r.Host = name } }
	method := func(name string) func(*http.Request) { return func(r *http.Request) { r.Method = name } }
	port := s.url[strings.LastIndex(s.url, ":")+1:]
	comes := func(r *http.Request) { // as a browser goes to a page from another one
		r.Header.Del("Origin")
		r.Header.Set("Sec-Fetch-Site", "cross-site")
		r.Header.Set("Sec-Fetch-Mode", "navigate")
		r.Header.Set("Sec-Fetch-Dest", "document")
	}
	for _, c := range []struct {
		name, path, body string
		change           func(*http.Request)
		want             int
	}{
		{"host", "/", "", host("evil.example"), http.StatusMisdirectedRequest},
		{"host with our port", "/try", body, host("evil.example:" + port), http.StatusMisdirectedRequest},
		{"host without a port", "/", "", host("127.0.0.1"), http.StatusMisdirectedRequest},
		{"host of another port", "/", "", host("127.0.0.1:1"), http.StatusMisdirectedRequest},
		{"host that begins as ours", "/", "", host("localhost:" + port + ".evil.example"), http.StatusMisdirectedRequest},
		{"localhost, origin by number", "/try", body, host("localhost:" + port), http.StatusForbidden},
		{"origin", "/try", body, header("Origin", "http://evil.example"), http.StatusForbidden},
		{"origin with our port", "/try", body, header("Origin", "http://evil.example:"+port), http.StatusForbidden},
		{"origin, encrypted", "/try", body, header("Origin", "https://127.0.0.1:"+port), http.StatusForbidden},
		{"origin of none", "/try", body, header("Origin", "null"), http.StatusForbidden},
		{"two origins", "/try", body, func(r *http.Request) { r.Header.Add("Origin", s.url) }, http.StatusForbidden},
		{"another site", "/", "", header("Sec-Fetch-Site", "cross-site"), http.StatusForbidden},
		{"two sites", "/", "", func(r *http.Request) {
			r.Header.Set("Sec-Fetch-Site", "same-origin")
			r.Header.Add("Sec-Fetch-Site", "cross-site")
		}, http.StatusForbidden},
		{"another site posts to the page", "/", body, comes, http.StatusForbidden},
		{"the same site", "/try", body, header("Sec-Fetch-Site", "same-site"), http.StatusForbidden},
		{"no token", "/save", body, func(r *http.Request) { r.Header.Del(tokenHeader) }, http.StatusUnauthorized},
		{"wrong token", "/save", body, header(tokenHeader, strings.Repeat("0", 32)), http.StatusUnauthorized},
		{"part of the token", "/save", body, header(tokenHeader, token[:31]), http.StatusUnauthorized},
		{"empty token", "/save", body, header(tokenHeader, ""), http.StatusUnauthorized},
		{"two tokens", "/save", body, func(r *http.Request) { r.Header.Add(tokenHeader, token) }, http.StatusUnauthorized},
		{"a trial without the token", "/try", body, header(tokenHeader, ""), http.StatusUnauthorized},
		{"a picture without the token", "/picture", body, header(tokenHeader, ""), http.StatusUnauthorized},
		{"a pose without the token", "/pose", body, header(tokenHeader, ""), http.StatusUnauthorized},
		{"the run without the token", "/workbench", "", header(tokenHeader, ""), http.StatusUnauthorized},
		{"the hash without the token", "/file", "", header(tokenHeader, ""), http.StatusUnauthorized},
		{"the token in the address", "/workbench?token=" + token, "", header(tokenHeader, ""), http.StatusUnauthorized},
		{"another site comes to the run", "/workbench", "", comes, http.StatusForbidden},
		{"another site shows the page in its own", "/", "", func(r *http.Request) { comes(r); r.Header.Set("Sec-Fetch-Dest", "iframe") }, http.StatusForbidden},
		{"save without a hash", "/save", `{"turns":{"link.from":1}}`, header(tokenHeader, token), http.StatusBadRequest},
		{"save what another file was", "/save", strings.Replace(body, hash, strings.Repeat("0", 64), 1), header(tokenHeader, token), http.StatusConflict},
		{"get of a trial", "/try", body, method(http.MethodGet), http.StatusMethodNotAllowed},
		{"put", "/pose", body, method(http.MethodPut), http.StatusMethodNotAllowed},
		{"get of a save", "/save", body, method(http.MethodGet), http.StatusMethodNotAllowed},
		{"post of the page", "/", body, nil, http.StatusMethodNotAllowed},
		{"options", "/save", body, method(http.MethodOptions), http.StatusMethodNotAllowed},
		{"path", "/run.hcl", "", nil, http.StatusNotFound},
		{"path upward", "/..%2f..%2fetc/passwd", "", nil, http.StatusNotFound},
		{"path below", "/try/", body, nil, http.StatusNotFound},
		{"file by name", "/file/run.hcl", "", nil, http.StatusNotFound},
		{"form", "/try", body, header("Content-Type", "application/x-www-form-urlencoded"), http.StatusUnsupportedMediaType},
		{"plain text", "/try", body, header("Content-Type", "text/plain"), http.StatusUnsupportedMediaType},
		{"no type", "/try", body, func(r *http.Request) { r.Header.Del("Content-Type") }, http.StatusUnsupportedMediaType},
		{"long", "/try", `{"moves":"` + strings.Repeat("x", mostBody) + `"}`, nil, http.StatusRequestEntityTooLarge},
		{"long behind", "/try", `{}` + strings.Repeat(" ", mostBody), nil, http.StatusRequestEntityTooLarge},
		{"long nonsense", "/try", strings.Repeat("x", mostBody+1), nil, http.StatusRequestEntityTooLarge},
		{"broken", "/try", `{"turns":`, nil, http.StatusBadRequest},
		{"more", "/try", `{}{}`, nil, http.StatusBadRequest},
		{"more that is no JSON", "/try", `{} x`, nil, http.StatusBadRequest},
		{"list", "/try", `[]`, nil, http.StatusBadRequest},
		{"unknown field", "/try", `{"file":"/etc/passwd"}`, nil, http.StatusBadRequest},
		{"no number", "/try", `{"turns":{"link.from":NaN}}`, nil, http.StatusBadRequest},
		{"no finite number", "/try", `{"turns":{"link.from":1e999}}`, nil, http.StatusBadRequest},
		{"far too many turns", "/try", `{"turns":{"link.from":1e300}}`, nil, http.StatusBadRequest},
		{"words for a number", "/try", `{"at":{"hand":"3"}}`, nil, http.StatusBadRequest},
		{"unknown end", "/try", `{"turns":{"link.frm":1}}`, nil, http.StatusBadRequest},
		{"unknown stop", "/try", `{"stops":{"hgh":1}}`, nil, http.StatusBadRequest},
		{"stop that is no screw", "/try", `{"stops":{"low":-20}}`, nil, http.StatusBadRequest},
		{"unknown control", "/pose", `{"at":{"foot":1}}`, nil, http.StatusBadRequest},
		{"unknown that moves", "/pose", `{"moves":"foot"}`, nil, http.StatusBadRequest},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := s.ask(c.path, c.body, c.change)
			assert.Equal(t, c.want, got.status, got.body)
			var said struct{ Error string }
			decode(t, got.body, &said)
			assert.NotEmpty(t, said.Error)
			assert.NotRegexp(t, `\?\w`, said.Error, "words that could not be shown")
			assert.Equal(t, "nosniff", got.header.Get("X-Content-Type-Options"))
			assert.NotContains(t, got.body, token)
		})
	}
	assert.Equal(t, screwed, s.file(), "nothing was written")
	ok := s.ask("/", "", func(r *http.Request) {
		r.Host = "localhost:" + port
		r.Header.Del("Origin")
		r.Header.Set("Sec-Fetch-Site", "none")
	})
	assert.Equal(t, http.StatusOK, ok.status, "typed by hand")
	assert.Equal(t, http.StatusOK, s.ask("/", "", comes).status, "from the file that opens it")
}

func TestGuardTellsAPanic(t *testing.T) {
	var told any
	h := guard(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("oops") }), []string{"here:1"}, func(trouble any) { told = trouble })
	w := httptest.NewRecorder()
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.Host = "here:1"
	h.ServeHTTP(w, r)
	assert.Equal(t, http.StatusInternalServerError, w.Code)
	assert.Equal(t, "oops", told)
	assert.NotContains(t, w.Body.String(), "oops")
}

// Several pages at once get each its own answer.
func TestManyAtOnce(t *testing.T) {
	s := serveWorkbench(t, screwed)
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			for k := range 6 {
				turns := float64(i%3) / 2
				body := fmt.Sprintf(`{"turns":{"link.from":%g},"at":{"hand":%d}}`, turns, k)
				w := httptest.NewRecorder()
				r := httptest.NewRequest(http.MethodPost, []string{"/try", "/pose"}[k%2], strings.NewReader(body))
				r.Header.Set("Content-Type", "application/json")
				r.Header.Set(tokenHeader, s.token)
				s.handler().ServeHTTP(w, r)
				assert.Equal(t, http.StatusOK, w.Code)
				var got trialAnswer
				if assert.NoError(t, json.Unmarshal(w.Body.Bytes(), &got)) && k%2 == 0 {
					assert.Equal(t, fmt.Sprintf("%.2f mm", 199.5+turns), got.Ends[0].Length)
				}
				assert.Equal(t, float64(k), got.Stand.Position.At)
			}
		})
	}
	all.Wait()
}

func TestAddressOf(t *testing.T) {
	at := func(asked, ip string, port int) served {
		return addressOf(asked, &net.TCPAddr{IP: net.ParseIP(ip), Port: port})
	}
	own := at(anyPort, "127.0.0.1", 8080)
	assert.Equal(t, served{[]string{"127.0.0.1:8080", "localhost:8080"}, true, "127.0.0.1:8080"}, own)
	assert.Equal(t, "http://127.0.0.1:8080/#secret", own.url("secret"))
	assert.Equal(t, []string{"[::1]:8080", "localhost:8080"}, at("[::1]:0", "::1", 8080).hosts)
	assert.Equal(t, served{[]string{"192.0.2.7:8080", "bench.example:8080"}, false, "192.0.2.7:8080"}, at("Bench.example:8080", "192.0.2.7", 8080))
	assert.Contains(t, at("127.0.0.1:80", "127.0.0.1", 80).hosts, "127.0.0.1", "a browser leaves port 80 out")
	all := at(":8080", "::", 8080)
	assert.False(t, all.local)
	assert.True(t, slices.Contains(all.hosts, "127.0.0.1:8080"))
	assert.False(t, slices.Contains(all.hosts, "[::]:8080"))
}
