package live

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"mime"
	"net/http"
)

// NewKey makes a key that nobody can guess.
func NewKey() string {
	var b [24]byte
	rand.Read(b[:])
	return base64.RawURLEncoding.EncodeToString(b[:])
}

// policy lets the page load what this program serves, and nothing else, and no page frame it.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guard lets only those through who have the key, and only to the address that was printed:
// a page elsewhere reaches the loopback address by a name of its own, but not under this
// host, and what it sends bears its own origin.
func guard(host, key string, to http.Handler) http.Handler {
	origin := "http://" + host
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		from, sent := r.Header["Origin"]
		kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
		switch {
		case r.Host != host:
			refuse(w, http.StatusMisdirectedRequest, "The bench is at "+origin+" alone.")
		case sent && (len(from) != 1 || from[0] != origin):
			refuse(w, http.StatusForbidden, "The bench answers no page but its own.")
		case r.Method == http.MethodGet && r.URL.Path == "/favicon.ico": // browsers ask for it by themselves
			w.WriteHeader(http.StatusNoContent)
		case subtle.ConstantTimeCompare([]byte(r.URL.Query().Get("key")), []byte(key)) != 1:
			refuse(w, http.StatusForbidden, "This is not the address that was printed: its key is wrong or missing.")
		case r.Method == http.MethodPost && (err != nil || kind != "application/json"):
			refuse(w, http.StatusUnsupportedMediaType, "The bench is asked in JSON.")
		default:
			to.ServeHTTP(w, r)
		}
	})
}
