package main

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"slices"
	"strings"

	"fullfree/linkage"
)

// mostBody is how long the body of a request may be: a page tells of a few
// hundred rod ends at most.
const mostBody = 64 << 10

// tokenHeader carries the token of the page, without which nothing is saved.
const tokenHeader = "X-Fullfree-Token"

// newToken is a secret that only a page served by this process knows.
func newToken() string {
	secret := make([]byte, 16) // 128 bits: nobody guesses it
	_, _ = rand.Read(secret)   // never fails (package crypto/rand)
	return hex.EncodeToString(secret)
}

// guard lets through what the page itself asks for, and refuses what another
// page made a browser ask: by the name under which it was reached, which a
// foreign name pointed at this machine would give away; by the page that the
// browser says it comes from; and nothing answered is kept or shown inside
// another page. A panic is told, and ends nothing but the request.
func guard(next http.Handler, hosts []string, tell func(any)) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if trouble := recover(); trouble != nil {
				tell(trouble)
				refuse(w, http.StatusInternalServerError, "something went wrong in fullfree itself; its terminal tells what")
			}
		}()
		for name, value := range map[string]string{
			"Cache-Control":                "no-store",
			"Content-Security-Policy":      "default-src 'none'; frame-ancestors 'none'",
			"Cross-Origin-Opener-Policy":   "same-origin",
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
			refuse(w, http.StatusMisdirectedRequest, "this page is not served under that name")
		case len(origin) > 1 || len(origin) == 1 && origin[0] != "http://"+host:
			refuse(w, http.StatusForbidden, "asked from another page")
		case len(site) > 1 || len(site) == 1 && site[0] != "same-origin" && site[0] != "none":
			refuse(w, http.StatusForbidden, "asked from another page")
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// only serves one method.
func only(method string, next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if r.Method != method {
			w.Header().Set("Allow", method)
			refuse(w, http.StatusMethodNotAllowed, "this takes %s", method)
			return
		}
		next(w, r)
	}
}

// withToken serves who has the token.
func withToken(token string, next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		given := r.Header.Values(tokenHeader)
		if len(given) != 1 || subtle.ConstantTimeCompare([]byte(given[0]), []byte(token)) != 1 {
			refuse(w, http.StatusForbidden, "saving is for the page that this fullfree serves: load it anew")
			return
		}
		next(w, r)
	}
}

// refusal is an answer that isn't what was asked for.
type refusal struct {
	Error string `json:"error"`
}

func refuse(w http.ResponseWriter, status int, format string, args ...any) {
	body, _ := json.Marshal(refusal{fmt.Sprintf(format, args...)}) // a string can be
	answer(w, status, body)
}

// answer sends an answer. That it can't is nowhere to be told.
func answer(w http.ResponseWriter, status int, body []byte) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(body)
}

// bodyOf reads the body of a request into v: one JSON object with the fields
// of v alone. Where it can't, it has been refused.
func bodyOf(w http.ResponseWriter, r *http.Request, v any) bool {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/json" {
		refuse(w, http.StatusUnsupportedMediaType, "this takes application/json")
		return false
	}
	in := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostBody))
	in.DisallowUnknownFields()
	err = in.Decode(v)
	if err == nil {
		if _, more := in.Token(); !errors.Is(more, io.EOF) {
			err = errors.Join(errors.New("more follows after what was asked"), more)
		}
	}
	var long *http.MaxBytesError
	switch {
	case errors.As(err, &long):
		refuse(w, http.StatusRequestEntityTooLarge, "more than %d bytes", mostBody)
	case err != nil:
		refuse(w, http.StatusBadRequest, "this is not what the page asks: %s", linkage.Printable(err.Error()))
	}
	return err == nil
}
