package gate

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
)

// watched counts what is asked of keys.
type watched struct {
	Keys
	begun int
}

func (w *watched) Begin(ctx context.Context, a ledger.Attempt) (ledger.Standing, ledger.Answer, error) {
	w.begun++
	return w.Keys.Begin(ctx, a)
}

func TestPanicIsAnsweredAndLogged(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	b := h.browser(t)
	b.logIn("ada")
	w := b.get("/boom")
	if w.StatusCode != http.StatusInternalServerError || strings.Contains(w.text, "secret reason") || strings.Contains(w.text, ".go:") {
		t.Errorf("the asker is told %s %q", w.Status, w.text)
	}
	log := h.log.String()
	if !strings.Contains(log, "a secret reason") || !strings.Contains(log, "gate_test.go") || !strings.Contains(log, w.Header.Get("X-Request-Id")) {
		t.Errorf("the log does not tell what, where and which: %s", log)
	}
	// Half an answer is cut off, so that nobody takes it for the whole.
	r, _ := http.NewRequestWithContext(t.Context(), http.MethodGet, h.server.URL+"/half", nil)
	half, err := b.client.Do(r)
	if err == nil {
		_, err = io.ReadAll(half.Body)
		half.Body.Close()
	}
	if err == nil {
		t.Error("half an answer looks whole")
	}
	if w := b.get("/"); w.StatusCode != http.StatusOK {
		t.Errorf("afterwards: %s", w.Status)
	}
}

// The log tells of every request, and of nothing that is secret.
func TestLogHoldsNoSecret(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	secret := h.token(t, "ada", access.Lead)
	b := h.browser(t)
	b.logIn("ada")
	b.post("/login", "name", "my-password-typed-as-name", "password", "wrong-password")
	b.get("/welcome?secret=link-secret")
	b.get("/jobs/2107?token=query-secret")
	b.get("/api/v1/who", "Authorization", "Bearer "+secret)
	b.get("/api/v1/who", "Authorization", "Bearer fw_guessed-secret")
	b.get("/a%0aLEVEL=ERROR")
	log := h.log.String()
	for _, hidden := range []string{good, "wrong-password", "my-password-typed-as-name", "link-secret", "query-secret", secret, "guessed-secret", b.session().Value} {
		if strings.Contains(log, hidden) {
			t.Errorf("the log holds %q", hidden)
		}
	}
	requests := 0
	for line := range strings.Lines(log) {
		var l map[string]any
		if err := json.Unmarshal([]byte(line), &l); err != nil {
			t.Errorf("%q is no line of JSON: %v", line, err)
		}
		if l["msg"] == "request" {
			requests++
		}
	}
	if requests != 7 || !strings.Contains(log, `"path":"/jobs/2107"`) || !strings.Contains(log, `"who":"ada by screen"`) || !strings.Contains(log, "log-in refused") {
		t.Errorf("%d requests in %s", requests, log)
	}
}

func TestMetrics(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Admin)
	b := h.browser(t)
	b.logIn("ada")
	b.get("/jobs/2107")
	b.get("/jobs/2108")
	b.get("/api/v1/who")
	b.get("/boom")
	b.ask("BREW", "/jobs/2107", "")
	b.post("/login", "name", "ada", "password", "wrong")
	text := b.get("/metrics").text
	for _, want := range []string{
		`foldwright_http_requests_total{method="GET",route="GET /jobs/{job}",status="200"} 2`,
		`foldwright_http_requests_total{method="GET",route="GET /api/v1/who",status="200"} 1`,
		`foldwright_http_requests_total{method="GET",route="GET /boom",status="500"} 1`,
		`foldwright_http_requests_total{method="other",route="none",status="405"} 1`,
		`foldwright_http_request_seconds_count{method="GET",route="GET /jobs/{job}"} 2`,
		`foldwright_log_ins_refused_total{by="password"} 1`,
		`foldwright_log_ins_refused_total{by="token"} 0`,
		`foldwright_panics_total 1`,
		"foldwright_store_up 1", "foldwright_searches_running 0", "foldwright_jobs_waiting 60", "foldwright_store_revision ", "foldwright_store_revision_age_seconds ", "go_goroutines ",
		"foldwright_http_in_flight 1",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the figures lack %s", want)
		}
	}
	if strings.Contains(text, "2107") {
		t.Error("a figure for every job: figures without end")
	}
}

// Through a proxy on this machine nobody reads the figures but who rules.
func TestWhoReadsMetrics(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Admin)
	h.moveIn(t, "bob", access.Lead)
	for _, c := range []struct {
		headers []string
		want    int
	}{
		{nil, 200},
		{[]string{"X-Forwarded-For", "203.0.113.9"}, 403},
		{[]string{"X-Forwarded-For", "203.0.113.9", "Authorization", "Bearer " + h.token(t, "bob", access.Lead)}, 403},
		{[]string{"X-Forwarded-For", "203.0.113.9", "Authorization", "Bearer " + h.token(t, "ada", access.Admin)}, 200},
		{[]string{"Forwarded", "for=203.0.113.9"}, 403},
	} {
		if w := h.browser(t).get("/metrics", c.headers...); w.StatusCode != c.want {
			t.Errorf("with %v: %s, want %d", c.headers, w.Status, c.want)
		}
	}
}

func TestBackgroundEndsWithTheServer(t *testing.T) {
	h := newHouse(t)
	begun, kept := make(chan struct{}), make(chan struct{})
	h.Background(func(ctx context.Context) {
		close(begun)
		<-ctx.Done()
		close(kept) // what was found is written down
	})
	h.Background(func(context.Context) { panic("in the background") })
	<-begun
	if err := h.Stop(t.Context()); err != nil {
		t.Fatal(err)
	}
	select {
	case <-kept:
	default:
		t.Error("the server did not wait")
	}
	select {
	case <-h.Stopping():
	default:
		t.Error("streams are not told")
	}
	h.Background(func(context.Context) { t.Error("begun although the server stops") })
	if !strings.Contains(h.log.String(), "in the background") {
		t.Error("a panic of background work is not logged")
	}
}

func TestStopDoesNotWaitForEver(t *testing.T) {
	h := newHouse(t)
	free := make(chan struct{})
	h.Background(func(context.Context) { <-free })
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := h.Stop(ctx); err == nil {
		t.Error("it did not say that something goes on")
	}
	close(free)
}

// failing is a store of sessions that answers nothing.
type failing struct{ Sessions }

func (failing) FindCtx(context.Context, string) ([]byte, bool, error) {
	return nil, false, errors.New("the disk is gone")
}

func TestAStoreThatFailsIsNotTold(t *testing.T) {
	h := newHouse(t, func(c *Config) { c.Sessions = failing{c.Sessions} })
	for _, path := range []string{"/", "/api/v1/who"} {
		w := h.browser(t).get(path, "Cookie", "foldwright=x")
		if w.StatusCode != http.StatusInternalServerError || strings.Contains(w.text, "disk") {
			t.Errorf("%s: %s %q", path, w.Status, w.text)
		}
	}
	if !strings.Contains(h.log.String(), "the disk is gone") {
		t.Error("the log does not tell")
	}
}

func TestOldSessionsGo(t *testing.T) {
	gone := make(chan time.Time, 1)
	h := newHouse(t, func(c *Config) { c.Sessions = expiring{c.Sessions, gone} })
	if at := <-gone; !at.Equal(h.clock.Now()) {
		t.Errorf("expired as of %v", at)
	}
}

type expiring struct {
	Sessions
	gone chan time.Time
}

func (e expiring) Expire(_ context.Context, now time.Time) error {
	e.gone <- now
	return nil
}

// Somebody who leaves before the answer, as tablets do whose network fails, is no fault of the server's: neither the log nor the figures cry.
func TestWhoLeavesIsNoFault(t *testing.T) {
	h := newHouse(t)
	for _, c := range []struct {
		leaves bool
		level  string
		status string
	}{{true, `"level":"INFO"`, "gone"}, {false, `"level":"ERROR"`, "500"}} {
		ctx, leave := context.WithCancel(t.Context())
		door := h.Watched(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if c.leaves {
				leave()
			}
			r.Pattern = "GET /slow"
			Refuse(w, r, errors.New("the question broke off"))
		}))
		door.ServeHTTP(httptest.NewRecorder(), httptest.NewRequestWithContext(ctx, http.MethodGet, "/slow", nil))
		leave()
		all := strings.Split(strings.TrimSpace(h.log.String()), "\n")
		if last := all[len(all)-1]; !strings.Contains(last, c.level) || !strings.Contains(last, "the question broke off") {
			t.Errorf("leaves %v: logged as %s", c.leaves, last)
		}
		if text := h.browser(t).get("/metrics").text; !strings.Contains(text, `route="GET /slow",status="`+c.status+`"} 1`) {
			t.Errorf("leaves %v: it is not counted as %s", c.leaves, c.status)
		}
	}
}
