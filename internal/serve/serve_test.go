package serve

import (
	"bufio"
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/plan"
	"foldwright/internal/serve/servetest"
)

// lines is a log that is read.
type lines struct {
	mu   sync.Mutex
	text strings.Builder
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *lines) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// house is a server that runs until the test stops it.
type house struct {
	*Server
	log   *lines
	stop  context.CancelFunc
	ended chan error
}

func run(t *testing.T, c Config) *house {
	t.Helper()
	h := &house{log: new(lines), ended: make(chan error, 1)}
	c.Log = slog.New(slog.NewTextHandler(h.log, nil))
	if c.Listen == "" {
		c.Listen = "127.0.0.1:0"
	}
	ctx, stop := context.WithCancel(t.Context())
	h.stop = stop
	var err error
	if h.Server, err = New(ctx, c); err != nil {
		t.Fatal(err)
	}
	go func() { h.ended <- h.Run(ctx) }()
	t.Cleanup(func() { h.end(t) })
	return h
}

// end stops the server and gives what it ended with, once.
func (h *house) end(t *testing.T) {
	t.Helper()
	h.stop()
	select {
	case err, open := <-h.ended:
		if open && err != nil {
			t.Errorf("it ends with %v", err)
		}
		if open {
			close(h.ended)
		}
	case <-time.After(time.Minute):
		t.Fatal("it does not end")
	}
}

// lead is a client that is logged in as the demo's lead.
func (h *house) lead(t *testing.T) *http.Client {
	t.Helper()
	guests, err := h.Guests(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	client := &http.Client{Jar: jar}
	w, err := client.PostForm(h.Address()+"/login", url.Values{"name": {"lead"}, "password": {guests[2].Password}, "to": {"/jobs"}})
	if err != nil {
		t.Fatal(err)
	}
	w.Body.Close()
	if u, _ := url.Parse(h.Address()); len(jar.Cookies(u)) == 0 {
		t.Fatalf("the lead cannot log in: %s", w.Status)
	}
	return client
}

func get(t *testing.T, client *http.Client, address string) (int, string) {
	t.Helper()
	w, err := client.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer w.Body.Close()
	text, err := io.ReadAll(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	return w.StatusCode, string(text)
}

// A stop in the middle of a search keeps what was found, ends the stream that watches it, and lets nobody wait.
func TestStopKeepsWhatWasFound(t *testing.T) {
	where := filepath.Join(t.TempDir(), "shop.db")
	h := run(t, Config{Demo: true})
	client := h.lead(t)
	// The demo's database goes with it; a copy tells afterwards what was in it.
	lead := access.With(t.Context(), access.Who{Name: "lead", Role: access.Lead})
	search, err := h.desk.Search(lead, desk.SearchAsk{Time: desk.SearchLongest, Options: plan.Options{Seed: 1}})
	if err != nil {
		t.Fatal(err)
	}
	copied := make(chan error, 1)
	h.gate.Background(func(ctx context.Context) {
		search.Run(ctx)
		copied <- h.store.Backup(context.WithoutCancel(ctx), where)
	})
	w, err := client.Get(h.Address() + "/api/v1/searches/" + search.ID + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer w.Body.Close()
	if w.StatusCode != http.StatusOK || !strings.HasPrefix(w.Header.Get("Content-Type"), "text/event-stream") {
		t.Fatalf("no stream to watch: %s", w.Status)
	}
	events := bufio.NewReader(w.Body)
	if _, err := events.ReadString('\n'); err != nil {
		t.Fatal(err)
	}
	h.stop()
	if _, err := io.ReadAll(events); err != nil {
		t.Errorf("the stream is torn: %v", err)
	}
	if err := <-copied; err != nil {
		t.Fatal(err)
	}
	h.end(t)
	at, _ := search.State()
	if !at.Done || at.Draft == "" || at.Err != nil {
		t.Errorf("the search ended as %+v", at)
	}
	if text := h.log.String(); strings.Contains(text, "did not end in time") || strings.Contains(text, "level=ERROR") {
		t.Errorf("it logged %s", text)
	}
	again := run(t, Config{Shop: where})
	drafts, err := again.desk.Drafts(lead, 10)
	if err != nil || len(drafts) != 1 || drafts[0].ID != at.Draft {
		t.Errorf("after the next start there is %v, %v", drafts, err)
	}
}

// Requests that are being answered come to their end; new ones find nobody, and readiness says so before.
func TestReadyUntilItStops(t *testing.T) {
	h := run(t, Config{Shop: filepath.Join(t.TempDir(), "shop.db")})
	if status, text := get(t, http.DefaultClient, h.Address()+"/readyz"); status != 200 || text != "ready\n" {
		t.Errorf("%d %q", status, text)
	}
	free, in := make(chan struct{}), make(chan struct{})
	h.gate.Background(func(ctx context.Context) { // holds the stop up
		close(in)
		<-ctx.Done()
		<-free
	})
	<-in
	h.stop()
	<-h.gate.Stopping()
	if status, text := get(t, http.DefaultClient, h.Address()+"/readyz"); status != 503 || text != "stopping\n" {
		t.Errorf("while it stops: %d %q", status, text)
	}
	if status, text := get(t, http.DefaultClient, h.Address()+"/healthz"); status != 200 || text != "alive\n" {
		t.Errorf("while it stops: %d %q", status, text)
	}
	close(free)
	h.end(t)
	if c, err := net.Dial("tcp", strings.TrimPrefix(h.Address(), "http://")); err == nil {
		c.Close()
		t.Error("it answers after its end")
	}
}

func TestNotReadyWithoutStore(t *testing.T) {
	h := run(t, Config{Shop: filepath.Join(t.TempDir(), "shop.db")})
	if err := h.store.Close(); err != nil {
		t.Fatal(err)
	}
	if status, text := get(t, http.DefaultClient, h.Address()+"/readyz"); status != 503 || strings.Contains(text, "sql") {
		t.Errorf("%d %q", status, text)
	}
	if !strings.Contains(h.log.String(), "closed") {
		t.Errorf("the log does not tell why: %s", h.log)
	}
	if status, text := get(t, http.DefaultClient, h.Address()+"/metrics"); status != 200 || !strings.Contains(text, "foldwright_store_up 0") {
		t.Errorf("%d %s", status, text)
	}
}

// The first admin comes by the link, in a browser that tells only where a form was sent from, as those do that come without TLS.
func TestTheFirstAdminComesIn(t *testing.T) {
	h := run(t, Config{Shop: filepath.Join(t.TempDir(), "shop.db")})
	link, err := h.FirstLink(t.Context())
	if err != nil || !strings.HasPrefix(link, h.Address()+"/welcome?secret=") {
		t.Fatalf("the link is %q, %v", link, err)
	}
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	client := &http.Client{Jar: jar}
	w, err := client.Get(link)
	if err != nil {
		t.Fatal(err)
	}
	w.Body.Close()
	if w.StatusCode != http.StatusOK || w.Header.Get("Referrer-Policy") != "same-origin" {
		t.Errorf("the page of the link: %s, referrer %q", w.Status, w.Header.Get("Referrer-Policy"))
	}
	u, err := url.Parse(link)
	if err != nil {
		t.Fatal(err)
	}
	form := url.Values{"secret": {u.Query().Get("secret")}, "name": {"Ada"}, "password": {"seven folded sheets"}, "again": {"seven folded sheets"}}
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, h.Address()+"/welcome", strings.NewReader(form.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Origin", h.Address())
	if w, err = client.Do(r); err != nil {
		t.Fatal(err)
	}
	w.Body.Close()
	if status, text := get(t, client, h.Address()+"/api/v1/me"); status != http.StatusOK || !strings.Contains(text, `"admin"`) {
		t.Errorf("the first admin is %d %s (%s)", status, text, w.Status)
	}
	if link, err := h.FirstLink(t.Context()); link != "" || err != nil {
		t.Errorf("now the link is %q, %v", link, err)
	}
}

// A certificate that is renewed in its files is used without a restart; half of one is not.
func TestCertificateIsReadAnew(t *testing.T) {
	dir := t.TempDir()
	cert, key := filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	first := servetest.Certificate(t, cert, key, "127.0.0.1")
	h := run(t, Config{Shop: filepath.Join(dir, "shop.db"), Cert: cert, Key: key})
	if !strings.HasPrefix(h.Address(), "https://") {
		t.Fatalf("served at %s", h.Address())
	}
	trusting := func(pem []byte) error {
		pool := x509.NewCertPool()
		pool.AppendCertsFromPEM(pem)
		client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool, MinVersion: tls.VersionTLS12}, DisableKeepAlives: true}}
		w, err := client.Get(h.Address() + "/healthz")
		if err == nil {
			w.Body.Close()
			if w.Header.Get("Strict-Transport-Security") == "" {
				t.Error("browsers are not told to come by TLS only")
			}
		}
		return err
	}
	if err := trusting(first); err != nil {
		t.Fatal(err)
	}
	later := time.Now().Add(time.Hour)
	if err := os.WriteFile(cert, []byte("half of a"), 0o600); err != nil {
		t.Fatal(err)
	}
	os.Chtimes(cert, later, later)
	if err := trusting(first); err != nil {
		t.Errorf("while the files are being written: %v", err)
	}
	second := servetest.Certificate(t, cert, key, "127.0.0.1")
	later = later.Add(time.Hour)
	os.Chtimes(cert, later, later)
	if err := trusting(second); err != nil {
		t.Errorf("the new certificate: %v", err)
	}
	if err := trusting(first); err == nil {
		t.Error("the old certificate is still used")
	}
}

func TestWhatCannotBeServed(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	base := filepath.Join(t.TempDir(), "shop.db")
	for what, c := range map[string]Config{
		"a port that somebody has":    {Shop: base, Listen: taken.Addr().String()},
		"no address":                  {Shop: base, Listen: "8642"},
		"a port that is none":         {Shop: base, Listen: "127.0.0.1:99999"},
		"a certificate without key":   {Shop: base, Listen: "127.0.0.1:0", Cert: "x"},
		"a key without certificate":   {Shop: base, Listen: "127.0.0.1:0", Key: "x"},
		"files that are not there":    {Shop: base, Listen: "127.0.0.1:0", Cert: "x", Key: "y"},
		"the demo for everybody":      {Demo: true, Listen: "0.0.0.0:0"},
		"the demo by a name":          {Demo: true, Listen: "localhost:0"},
		"another system, no client":   {Shop: base, Listen: "127.0.0.1:0", SignOn: &gate.SignOn{Issuer: "https://sso.example"}},
		"a directory as the database": {Shop: t.TempDir(), Listen: "127.0.0.1:0"},
	} {
		s, err := New(t.Context(), c)
		if all := fault.All(err); s != nil || len(all) != 1 || all[0].Right == "" || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", what, err)
		}
	}
	// The same without what was wrong: they failed for their own reason.
	usual, err := New(t.Context(), Config{Shop: base, Listen: "127.0.0.1:0"})
	if err != nil {
		t.Fatal(err)
	}
	if err := usual.Close(); err != nil {
		t.Error(err)
	}
	// The demo takes another port when its own is taken.
	s, err := New(t.Context(), Config{Demo: true, Listen: taken.Addr().String()})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

func TestWarnsOfPlainPasswords(t *testing.T) {
	for listen, c := range map[string]struct {
		address string
		warned  bool
	}{
		"127.0.0.1:0": {"", false},
		"0.0.0.0:0":   {"", true},
		"[::]:0":      {"https://folding.example", false},
	} {
		h := run(t, Config{Shop: filepath.Join(t.TempDir(), "shop.db"), Listen: listen, Address: c.address})
		if warned := strings.Contains(h.log.String(), "passwords"); warned != c.warned {
			t.Errorf("%s: warned %v, want %v", listen, warned, c.warned)
		}
		if strings.Contains(h.Address(), "0.0.0.0") || strings.Contains(h.Address(), "::") {
			t.Errorf("%s: people are sent to %s", listen, h.Address())
		}
	}
}

// Goal: a client that sends its headers one by one, or too many, holds nothing up. Method: the time is made short, and the client waits to
// be cut off.
func TestSlowAndEndlessHeaders(t *testing.T) {
	s, err := New(t.Context(), Config{Shop: filepath.Join(t.TempDir(), "shop.db"), Listen: "127.0.0.1:0"})
	if err != nil {
		t.Fatal(err)
	}
	if s.http.ReadHeaderTimeout != headersArrive || s.http.IdleTimeout != idleAfter || s.http.MaxHeaderBytes != headersMost {
		t.Errorf("the server waits for ever: %+v", s.http)
	}
	s.http.ReadHeaderTimeout = 50 * time.Millisecond
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()
	at := strings.TrimPrefix(s.Address(), "http://")
	for what, send := range map[string]func(io.Writer) error{
		"half a header": func(w io.Writer) error {
			_, err := io.WriteString(w, "GET / HTTP/1.1\r\nHost: x\r\nX-Slow: ")
			return err
		},
		"nothing": func(io.Writer) error { return nil },
		"endless headers": func(w io.Writer) error {
			io.WriteString(w, "GET / HTTP/1.1\r\nHost: x\r\n")
			for i := range 1000 {
				fmt.Fprintf(w, "X-Bomb-%d: %s\r\n", i, strings.Repeat("x", 100)) // the other end may have hung up
			}
			return nil
		},
	} {
		c, err := net.Dial("tcp", at)
		if err != nil {
			t.Fatal(err)
		}
		if err := send(c); err != nil {
			t.Fatal(err)
		}
		answer, err := io.ReadAll(c) // ends when the server hangs up
		if err == nil && len(answer) > 0 && !strings.HasPrefix(string(answer), "HTTP/1.1 4") {
			t.Errorf("%s: answered %q", what, answer)
		}
		c.Close()
	}
	if status, _ := get(t, http.DefaultClient, s.Address()+"/healthz"); status != 200 {
		t.Errorf("afterwards: %d", status)
	}
	stop()
	if err := <-ended; err != nil && !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}
