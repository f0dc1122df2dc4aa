package main

import (
	"encoding/json"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"
)

func TestDeedsAreAHundred(t *testing.T) {
	sum := 0
	for _, d := range deeds {
		sum += d.share
	}
	if sum != 100 {
		t.Errorf("the shares of the deeds come to %d", sum)
	}
}

// The percentile is the nearest-rank one: the least value that at least so many per cent do not exceed.
func TestPart(t *testing.T) {
	sorted := []time.Duration{15, 20, 35, 40, 50}
	for percent, want := range map[int]time.Duration{5: 15, 30: 20, 40: 20, 50: 35, 99: 50, 100: 50} {
		if got := part(sorted, percent); got != want {
			t.Errorf("the %dth percentile is %d, want %d", percent, got, want)
		}
	}
	if part(nil, 99) != 0 {
		t.Error("no answers have a percentile")
	}
}

// pretend is a server that answers as foldwright does, but for one path that fails.
func pretend(failing string) http.Handler {
	var mu sync.Mutex
	version := 0
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		mu.Lock()
		defer mu.Unlock()
		switch path := strings.TrimPrefix(r.URL.Path, "/api/v1"); {
		case failing != "" && path == failing:
			http.Error(w, "out of paper", http.StatusInternalServerError)
		case path == "/jobs" || path == "/sets":
			_ = json.NewEncoder(w).Encode(map[string]any{"items": []map[string]any{{"name": "a/b"}}})
		case r.Method == http.MethodPut:
			version++
			_, _ = io.Copy(io.Discard, r.Body)
		case r.Method == http.MethodPost:
			w.WriteHeader(http.StatusCreated)
		default:
			_ = json.NewEncoder(w).Encode(map[string]any{"name": "a/b"})
		}
	})
}

// A run against a server that does well has no error; one answer that fails ends it with one.
func TestRunTellsErrors(t *testing.T) {
	for failing, want := range map[string]string{"": "", "/records": "out of paper"} {
		h := httptest.NewServer(pretend(failing))
		defer h.Close()
		to := &server{url: h.URL, http: h.Client()}
		n, err := to.names(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if n.jobs[0] != "a%2Fb" {
			t.Errorf("the name a/b is asked for as %s", n.jobs[0])
		}
		var all tally
		c := &client{server: to, names: n, tally: &all, dice: rand.New(rand.NewPCG(1, 0))}
		for _, d := range deeds {
			all.add(d.what, time.Millisecond, d.do(c, t.Context()))
		}
		var out strings.Builder
		err = all.print(&out, settings{most: time.Second}, time.Second)
		if (err != nil) != (want != "") || !strings.Contains(out.String(), want) {
			t.Errorf("failing at %q: %v\n%s", failing, err, out.String())
		}
	}
}
