package live

import (
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"
	"time"
)

// Whoever lacks the key, comes by another name of this machine, or from another page, gets
// nothing but a refusal.
func TestGuard(t *testing.T) {
	h := handlerOf(t, deskOf(t, "eight-day"))
	ask := func(method, url, host, origin, kind string) int {
		r := httptest.NewRequest(method, url, strings.NewReader(`{"train":"going"}`))
		r.Host = host
		if origin != "" {
			r.Header.Set("Origin", origin)
		}
		r.Header.Set("Content-Type", kind)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code == 403 && (strings.Contains(w.Body.String(), testKey) || !json.Valid(w.Body.Bytes())) {
			t.Errorf("%s %s: %s", method, url, w.Body)
		}
		return w.Code
	}
	const own, json, right = "http://" + testHost, "application/json", "?key=" + testKey
	for _, c := range []struct {
		method, url, host, origin, kind string
		want                            int
	}{
		{"GET", "/" + right, testHost, "", "", 200},
		{"GET", "/page.js" + right, testHost, "", "", 200},
		{"GET", "/page.css" + right, testHost, own, "", 200},
		{"POST", "/run" + right, testHost, own, json, 200},
		{"POST", "/run" + right, testHost, "", "application/json; charset=utf-8", 200},
		{"GET", "/", testHost, "", "", 403},
		{"GET", "/?key=", testHost, "", "", 403},
		{"GET", "/" + right + "x", testHost, "", "", 403},
		{"GET", "/start?key=" + testKey[1:], testHost, "", "", 403},
		{"GET", "/page.js", testHost, "", "", 403},
		{"GET", "/" + right, "localhost:4711", "", "", 421},
		{"GET", "/" + right, "127.0.0.1:4712", "", "", 421},
		{"GET", "/" + right, "127.0.0.1", "", "", 421},
		{"GET", "/" + right, "clock.example:4711", "", "", 421},
		{"POST", "/run" + right, testHost, "http://clock.example", json, 403},
		{"POST", "/keep" + right, testHost, "null", json, 403},
		{"POST", "/keep" + right, testHost, "https://" + testHost, json, 403},
		{"POST", "/run" + right, testHost, own, "text/plain", 415},
		{"POST", "/keep" + right, testHost, own, "application/x-www-form-urlencoded", 415},
		{"POST", "/run" + right, testHost, own, "", 415},
		{"GET", "/run" + right, testHost, own, "", 405},
		{"DELETE", "/" + right, testHost, own, "", 405},
		{"GET", "/../go.mod" + right, testHost, own, "", 307},
		{"GET", "/serve.go" + right, testHost, own, "", 404},
	} {
		if got := ask(c.method, "http://"+testHost+c.url, c.host, c.origin, c.kind); got != c.want && !(c.want == 307 && got >= 300) {
			t.Errorf("%+v: %d", c, got)
		}
	}
}

// Every answer, be it a refusal, forbids the browser to load, frame or guess anything.
func TestHeaders(t *testing.T) {
	h := handlerOf(t, deskOf(t, "eight-day"))
	for _, url := range []string{"/?key=" + testKey, "/", "/nothing?key=" + testKey} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest("GET", "http://"+testHost+url, nil))
		for name, want := range map[string]string{"Content-Security-Policy": policy, "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store", "Cross-Origin-Resource-Policy": "same-origin"} {
			if got := w.Header().Get(name); got != want {
				t.Errorf("%s: %s is %q", url, name, got)
			}
		}
		if strings.Contains(policy, "unsafe") || !strings.HasPrefix(policy, "default-src 'none'") {
			t.Error(policy)
		}
	}
}

// What is no question is refused in a sentence, and nothing ends the program.
func TestNonsense(t *testing.T) {
	d := deskOf(t, "eight-day")
	h := handlerOf(t, d)
	for _, body := range []string{
		``, `{`, `[]`, `3`, `{"train":"none"}`, `{"trains":"going"}`, `{"train":"going","set":{"going.mainspring.thickness_mm":NaN}}`,
		`{"train":"going","set":{"going.mainspring.thickness_mm":1e400}}`, `{"train":"going","set":{"going.mainspring.thickness_mm":"0.4"}}`,
		`{"train":"going","set":{"title":3}}`, `{"train":"going","set":{"going.mainspring.thicknes_mm":0.4}}`, `{"train":"going","draws":-1}`, `{"train":"going","draws":1000000}`,
		`{"train":"going","fill":-1}`, `{"train":"going","tracks":["../../etc/passwd"]}`, `{"train":"going","fill":1e308}`, strings.Repeat("[", 1<<15),
		`{"train":"going","rules":[` + strings.Repeat(`"going.mainspring.width_mm",`, 100) + `"going.mainspring.width_mm"]}`,
	} {
		for _, path := range []string{"/run", "/order", "/keep", "/check"} {
			r := httptest.NewRequest("POST", "http://"+testHost+path+"?key="+testKey, strings.NewReader(body))
			r.Header.Set("Content-Type", "application/json")
			w := httptest.NewRecorder()
			h.ServeHTTP(w, r)
			var says struct {
				Fault string `json:"fault"`
			}
			own := path == "/run" || !strings.Contains(body, "draws") && !strings.Contains(body, "tracks") // which the others set themselves
			if err := json.Unmarshal(w.Body.Bytes(), &says); err != nil || own && says.Fault == "" || w.Code >= 500 {
				t.Errorf("%s %.80s: %d %.200s", path, body, w.Code, w.Body)
			}
		}
	}
	// What is a question, but cannot be built, is answered.
	for _, v := range []float64{1e300, -1e300, 1e-300, 0, -1} {
		for _, key := range d.Trains[0].always() {
			w := post(t, h, "/run", request{Train: "going", Set: map[string]float64{key: v}, Hold: "fill", Even: true, Rules: d.Trains[0].always(), Tracks: d.Trains[0].always(), Draws: some(50)})
			var says struct {
				Run   any    `json:"run"`
				Fault string `json:"fault"`
			}
			if err := json.Unmarshal(w.Body.Bytes(), &says); err != nil || w.Code != 200 || (says.Run == nil) != (says.Fault != "") {
				t.Errorf("%s = %v: %d %.200s", key, v, w.Code, w.Body)
			}
		}
	}
}

// A title is told as text, whatever stands in it.
func TestMarkupInTitle(t *testing.T) {
	d := deskOf(t, "eight-day")
	d.Title = `</title><script src="//clock.example/x.js"></script>" onload="alert(1)`
	h := handlerOf(t, d)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", "http://"+testHost+"/?key="+testKey, nil))
	if page := w.Body.String(); strings.Contains(page, "clock.example/x.js\"></script>") || strings.Contains(page, `" onload="`) {
		t.Errorf("%.500s", page)
	}
}

// running serves a desk at an address of this machine until the test ends.
func running(t *testing.T, d *Desk) (host string) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	host = l.Addr().String()
	s, err := d.Server(host, testKey)
	if err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	go func() { defer close(ended); s.Serve(l) }()
	t.Cleanup(func() { s.Close(); <-ended })
	return host
}

// endless is a body that does not end.
type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

// A body of a gigabyte is cut off, not gathered.
func TestLongBody(t *testing.T) {
	host := running(t, deskOf(t, "eight-day"))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	r, err := http.NewRequest("POST", "http://"+host+"/run?key="+testKey, io.LimitReader(endless{}, 1<<30))
	if err != nil {
		t.Fatal(err)
	}
	r.ContentLength = 1 << 30
	r.Header.Set("Content-Type", "application/json")
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	if w, err := client.Do(r); err == nil { // the connection may be closed before it is read
		if w.StatusCode != http.StatusRequestEntityTooLarge {
			t.Errorf("%s", w.Status)
		}
		w.Body.Close()
	}
	runtime.ReadMemStats(&after)
	if grew := after.TotalAlloc - before.TotalAlloc; grew > 20<<20 {
		t.Errorf("%d MiB were taken", grew>>20)
	}
}

// A thousand that say nothing keep nobody else out, and are let go of; what they take is
// little, and no goroutine stays.
func TestSlowConnections(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	idle := runtime.NumGoroutine()
	d := deskOf(t, "eight-day")
	host := running(t, d)
	var all []net.Conn
	for range 1000 {
		c, err := net.Dial("tcp", host)
		if err != nil {
			t.Skip("this machine takes no thousand connections:", err)
		}
		io.WriteString(c, "POST /run?key="+testKey+" HTTP/1.1\r\nHost: "+host+"\r\nContent-Le")
		all = append(all, c)
	}
	ctx, stop := context.WithTimeout(context.Background(), 3*time.Second)
	defer stop()
	r, _ := http.NewRequestWithContext(ctx, "GET", "http://"+host+"/?key="+testKey, nil)
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	w, err := client.Do(r)
	if err != nil || w.StatusCode != 200 {
		t.Fatalf("nobody else is answered: %v", err)
	}
	w.Body.Close()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	if m.Sys > 200<<20 {
		t.Errorf("%d MiB", m.Sys>>20)
	}
	left := 0
	for _, c := range all {
		c.SetReadDeadline(time.Now().Add(10 * time.Second))
		if _, err := io.ReadAll(c); err != nil {
			left++
		}
		c.Close()
	}
	if left > 0 {
		t.Errorf("%d are still held after ten seconds", left)
	}
	for range 50 {
		if runtime.NumGoroutine() <= idle+3 {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Errorf("%d goroutines, %d before", runtime.NumGoroutine(), idle)
}
