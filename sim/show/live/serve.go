package live

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"html/template"
	"net/http"
	"strconv"
	"time"

	"evenpull/sim/show/words"
)

// most is the longest body that is read, in bytes.
const most = 1 << 16

// Server serves the desk at the address host, which is host and port, to whoever has the
// key. What is slow is cut off (10 s to ask, 30 s to answer), and so is what says too much (64
// KiB). It fails where the page cannot be made.
func (d *Desk) Server(host, key string) (*http.Server, error) {
	h, err := d.handler(host, key)
	if err != nil {
		return nil, err
	}
	return &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, WriteTimeout: 30 * time.Second,
		IdleTimeout: time.Minute, MaxHeaderBytes: 1 << 14}, nil
}

func (d *Desk) handler(host, key string) (http.Handler, error) {
	var page bytes.Buffer
	t := template.Must(template.ParseFS(embedded, "page.html"))
	if err := t.Execute(&page, struct{ Key, Title string }{key, d.Title}); err != nil {
		return nil, err
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", file("text/html; charset=utf-8", page.Bytes()))
	for name, kind := range map[string]string{"page.css": "text/css; charset=utf-8", "page.js": "text/javascript; charset=utf-8"} {
		text, err := embedded.ReadFile(name)
		if err != nil {
			return nil, err
		}
		mux.HandleFunc("GET /"+name, file(kind, text))
	}
	mux.HandleFunc("GET /start", func(w http.ResponseWriter, r *http.Request) {
		s, err := d.start(r.Context())
		reply(w, s, err)
	})
	mux.HandleFunc("GET /list", func(w http.ResponseWriter, _ *http.Request) { reply(w, d.list(), nil) })
	answers(mux, "POST /run", d.run)
	answers(mux, "POST /check", d.check)
	answers(mux, "POST /order", d.order)
	answers(mux, "POST /keep", d.keep)
	return guard(host, key, mux), nil
}

func file(kind string, text []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", kind)
		w.Header().Set("Content-Length", strconv.Itoa(len(text)))
		w.Write(text)
	}
}

// answers reads what is asked, all of it and nothing else, and answers it.
func answers[Q, A any](mux *http.ServeMux, pattern string, do func(context.Context, *Q) (A, error)) {
	mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		var q Q
		body := json.NewDecoder(http.MaxBytesReader(w, r.Body, most))
		body.DisallowUnknownFields()
		if err := body.Decode(&q); err != nil {
			var long *http.MaxBytesError
			if errors.As(err, &long) {
				refuse(w, http.StatusRequestEntityTooLarge, "This is more than the bench reads.")
				return
			}
			refuse(w, http.StatusBadRequest, "This is not what the bench is asked: "+err.Error()+".")
			return
		}
		a, err := do(r.Context(), &q)
		reply(w, a, err)
	})
}

// reply writes an answer, or what was wrong.
func reply(w http.ResponseWriter, a any, err error) {
	if err != nil {
		refuse(w, http.StatusBadRequest, words.Capital(err.Error())+".")
		return
	}
	var text []byte
	if own, ok := a.(interface{ JSON() ([]byte, error) }); ok {
		text, err = own.JSON()
	} else {
		text, err = json.Marshal(a)
	}
	if err != nil {
		refuse(w, http.StatusInternalServerError, words.Capital(err.Error())+".")
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Content-Length", strconv.Itoa(len(text)))
	w.Write(text)
}

func refuse(w http.ResponseWriter, status int, why string) {
	text, err := json.Marshal(struct {
		Fault string `json:"fault"`
	}{why})
	if err != nil {
		text = []byte("{}")
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	w.Write(text)
}
