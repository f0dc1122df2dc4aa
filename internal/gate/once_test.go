package gate

import (
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"foldwright/internal/access"
)

func TestSentAgainIsDoneOnce(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	h.moveIn(t, "bob", access.Lead)
	ada, bob := h.token(t, "ada", access.Lead), h.token(t, "bob", access.Lead)
	send := func(who, path, key, body string) answered {
		return h.browser(t).ask("POST", path, body, "Authorization", "Bearer "+who, keyHeader, key)
	}
	first := send(ada, "/api/v1/jobs", "k1", "a job")
	for _, c := range []struct {
		what, who, path, key, body string
		status                     int
		text                       string
		replay                     bool
	}{
		{"the very same", ada, "/api/v1/jobs", "k1", "a job", 201, first.text, true},
		{"once more", ada, "/api/v1/jobs", "k1", "a job", 201, first.text, true},
		{"another body", ada, "/api/v1/jobs", "k1", "another job", 422, "", false},
		{"another call", ada, "/api/v1/jobs?x=1", "k1", "a job", 422, "", false},
		{"another's key of that name", bob, "/api/v1/jobs", "k1", "a job", 201, "made 2 of 5 bytes", false},
		{"a new key", ada, "/api/v1/jobs", "k2", "a job", 201, "made 3 of 5 bytes", false},
		{"no key", ada, "/api/v1/jobs", "", "a job", 201, "made 4 of 5 bytes", false},
		{"a key with a blank", ada, "/api/v1/jobs", "k 3", "a job", 400, "", false},
		{"a key too long", ada, "/api/v1/jobs", strings.Repeat("k", 201), "a job", 400, "", false},
		{"a key of other letters", ada, "/api/v1/jobs", "ключ", "a job", 400, "", false},
	} {
		w := send(c.who, c.path, c.key, c.body)
		if w.StatusCode != c.status || c.text != "" && w.text != c.text || (w.Header.Get("Idempotent-Replay") == "true") != c.replay {
			t.Errorf("%s: %s %q, replay %q", c.what, w.Status, w.text, w.Header.Get("Idempotent-Replay"))
		}
		if c.replay && (w.Header.Get("Location") != first.Header.Get("Location") || w.Header.Get("Content-Type") != first.Header.Get("Content-Type")) {
			t.Errorf("%s: headers %v, first %v", c.what, w.Header, first.Header)
		}
	}
	if w := h.browser(t).get("/api/v1/who", "Authorization", "Bearer "+ada, keyHeader, "k1"); w.StatusCode != http.StatusOK {
		t.Errorf("looking needs no key and minds none: %s", w.Status)
	}
}

// Ten programs at once with one key: the job is made once, whoever comes meanwhile is told to wait.
func TestTenAtOnce(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	secret := h.token(t, "ada", access.Lead)
	var mu sync.Mutex
	got := map[string]int{}
	var all sync.WaitGroup
	for range 10 {
		b := h.browser(t)
		all.Go(func() {
			w := b.ask("POST", "/api/v1/jobs", "a job", "Authorization", "Bearer "+secret, keyHeader, "k1")
			mu.Lock()
			defer mu.Unlock()
			if w.StatusCode == http.StatusConflict && strings.Contains(w.text, string(CodeKeyOpen)) {
				got["wait"]++
			} else {
				got[w.text]++
			}
		})
	}
	all.Wait()
	if got["made 1 of 5 bytes"]+got["wait"] != 10 || got["made 1 of 5 bytes"] == 0 {
		t.Errorf("got %v", got)
	}
}

func TestWhatAKeyRemembers(t *testing.T) {
	for _, c := range []struct {
		body   string
		first  int
		second int
		code   string
	}{
		{"denied", 403, 403, string(access.CodeDenied)}, // nothing was done: asked anew
		{"broken", 500, 409, string(CodeKeyOpen)},       // who knows what was done
		{"panic", 500, 409, string(CodeKeyOpen)},
	} {
		h := newHouse(t)
		h.moveIn(t, "ada", access.Lead)
		secret := h.token(t, "ada", access.Lead)
		send := func() answered {
			return h.browser(t).ask("POST", "/api/v1/jobs", c.body, "Authorization", "Bearer "+secret, keyHeader, "k1")
		}
		if w := send(); w.StatusCode != c.first {
			t.Errorf("%s: %s", c.body, w.Status)
		}
		w := send()
		if w.StatusCode != c.second || !strings.Contains(w.text, c.code) || w.Header.Get("Idempotent-Replay") != "" {
			t.Errorf("%s again: %s %s", c.body, w.Status, w.text)
		}
		h.clock.turn(25 * time.Hour)
		if w := send(); w.StatusCode != c.first {
			t.Errorf("%s a day later: %s", c.body, w.Status)
		}
	}
}

// What is secret is not kept to be answered again.
func TestSecretsAreNotRemembered(t *testing.T) {
	h := newHouse(t)
	kept := &watched{Keys: h.keys}
	h.keys = kept
	h.moveIn(t, "ada", access.Lead)
	secret := h.token(t, "ada", access.Lead)
	for _, path := range []string{"/session", "/me/password", "/tokens", "/people/bob/invitation", "/restore"} {
		h.browser(t).ask("POST", "/api/v1"+path, "a password", "Authorization", "Bearer "+secret, keyHeader, "k1")
	}
	if kept.begun != 0 {
		t.Errorf("%d secret requests were noted", kept.begun)
	}
}

// Who is not logged in writes nothing into the database, not even that something was asked of what is open to all.
func TestKeysOfNobodyAreNotKept(t *testing.T) {
	h := newHouse(t)
	kept := &watched{Keys: h.keys}
	h.keys = kept
	for _, path := range openCalls {
		h.browser(t).ask("POST", path, "anything", keyHeader, "k1")
	}
	if kept.begun != 0 {
		t.Errorf("%d requests of nobody were noted", kept.begun)
	}
}
