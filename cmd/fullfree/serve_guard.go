package main

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/hex"
	"errors"
	"io"
	"mime"
	"net/http"
	"slices"
	"strings"

	"fullfree/cmd/internal/calls"
)

// mostBody is how long the body of a request may be: a page tells of a few settings in some
// hundreds of bytes, and of a run of a hundred places that is being measured in less than that.
const mostBody = 256 << 10

// tokenHeader carries the token of the page, without which nothing but the bare
// page is served.
const tokenHeader = "X-Fullfree-Token"

// newToken is a secret that only who was told the address knows: that only this
// machine reaches it is no login where several people use the machine.
func newToken() string {
	secret := make([]byte, 16) // 128 bits: nobody guesses it
	_, _ = rand.Read(secret)   // never fails (package crypto/rand)
	return hex.EncodeToString(secret)
}

// guard lets through what the page itself asks for, and refuses what another
// page made a browser ask: by the name under which it was reached, which a
// foreign name pointed at this machine would give away; by the page that the
// browser says it comes from; and nothing answered is kept or shown inside
// another page. The bare page may be come to from anywhere, as from the file that
// opens it. A panic is told, and ends nothing but the request.
func guard(next http.Handler, hosts []string, tell func(any)) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if trouble := recover(); trouble != nil {
				tell(trouble)
				refused(http.StatusInternalServerError, "something went wrong in fullfree itself; its terminal tells what").send(w)
			}
		}()
		for name, value := range map[string]string{
			"Cache-Control":                "no-store",
			"Content-Security-Policy":      "default-src 'none'; frame-ancestors 'none'",
			"Cross-Origin-Resource-Policy": "same-origin",
			"Referrer-Policy":              "no-referrer",
			"X-Content-Type-Options":       "nosniff",
			"X-Frame-Options":              "DENY",
		} {
			w.Header().Set(name, value)
		}
		host := strings.ToLower(r.Host)
		origin, site := r.Header.Values("Origin"), r.Header.Values("Sec-Fetch-Site")
		switch {
		case !slices.Contains(hosts, host):
			refused(http.StatusMisdirectedRequest, "this page is not served under that name").send(w)
		case len(origin) > 1 || len(origin) == 1 && origin[0] != "http://"+host:
			refused(http.StatusForbidden, "asked from another page").send(w)
		case len(site) > 1 || len(site) == 1 && site[0] != "same-origin" && site[0] != "none" && !comesToThePage(r):
			refused(http.StatusForbidden, "asked from another page").send(w)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// comesToThePage reports whether a browser goes to the bare page in a window of its
// own.
func comesToThePage(r *http.Request) bool {
	return r.Method == http.MethodGet && r.URL.Path == "/" && r.Header.Get("Sec-Fetch-Mode") == "navigate" && r.Header.Get("Sec-Fetch-Dest") == "document"
}

// only serves one method.
func only(method string, next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if r.Method != method {
			w.Header().Set("Allow", method)
			refused(http.StatusMethodNotAllowed, "this takes %s", method).send(w)
			return
		}
		next(w, r)
	}
}

// withToken serves who has the token; the first time it calls first.
func withToken(token string, first func(), next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		given := r.Header.Values(tokenHeader)
		if len(given) != 1 || subtle.ConstantTimeCompare([]byte(given[0]), []byte(token)) != 1 {
			refused(http.StatusUnauthorized, "this is for the page at the whole address that fullfree has printed: open that").send(w)
			return
		}
		first()
		next(w, r)
	}
}

// statuses are those of HTTP for how a call was answered.
var statuses = map[calls.Status]int{
	calls.Done:     http.StatusOK,
	calls.Wrong:    http.StatusBadRequest,
	calls.Unfit:    http.StatusUnprocessableEntity,
	calls.Conflict: http.StatusConflict,
	calls.Failed:   http.StatusInternalServerError,
	calls.Dropped:  http.StatusServiceUnavailable,
}

// answer is what a request gets.
type answer struct {
	status int
	policy string // Content-Security-Policy of a page; empty: it is JSON
	body   []byte
}

// answerOf is the answer of a call.
func answerOf(a calls.Answer) answer { return answer{status: statuses[a.Status], body: a.Body} }

// refused is an answer that isn't what was asked for: why, in words.
func refused(status int, format string, args ...any) answer {
	return answer{status: status, body: calls.Refused(calls.Wrong, format, args...).Body}
}

// send sends the answer. That it can't is nowhere to be told.
func (a answer) send(w http.ResponseWriter) {
	kind := "application/json; charset=utf-8"
	if a.policy != "" {
		kind = "text/html; charset=utf-8"
		w.Header().Set("Content-Security-Policy", a.policy+"; frame-ancestors 'none'")
	}
	w.Header().Set("Content-Type", kind)
	w.WriteHeader(a.status)
	_, _ = w.Write(a.body)
}

// bodyOf reads the body of a request, which is to be JSON. Where it can't, it has been
// refused.
func bodyOf(w http.ResponseWriter, r *http.Request) (body []byte, ok bool) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/json" {
		refused(http.StatusUnsupportedMediaType, "this takes application/json").send(w)
		return nil, false
	}
	var long *http.MaxBytesError
	body, err = io.ReadAll(http.MaxBytesReader(w, r.Body, mostBody))
	switch {
	case errors.As(err, &long):
		refused(http.StatusRequestEntityTooLarge, "more than %d bytes", mostBody).send(w)
	case err != nil || len(body) == 0:
		refused(http.StatusBadRequest, "this is not what the page asks: one JSON object is wanted").send(w)
	}
	return body, err == nil && len(body) > 0
}
