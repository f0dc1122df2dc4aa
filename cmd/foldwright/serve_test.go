package main

import (
	"bufio"
	"context"
	"crypto/tls"
	"crypto/x509"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/serve/servetest"
)

// signed is a context of whoever runs the program, as run makes it.
func signed(t testing.TB) context.Context {
	return access.With(t.Context(), access.Who{Name: "test", Role: access.Admin})
}

// running is a foldwright of its own that serves.
type running struct {
	t       *testing.T
	command *exec.Cmd
	said    *bufio.Reader
	told    strings.Builder // what it said so far
	errs    strings.Builder
	address string
}

var served = regexp.MustCompile(`^serving .* at (https?://\S+)/\n$`)

// start starts one and waits until it says where it is.
func start(t *testing.T, args ...string) *running {
	t.Helper()
	r := &running{t: t, command: exec.Command("foldwright", append(args, "--listen", "127.0.0.1:0")...)}
	r.command.Stderr = &r.errs
	r.command.Env = append(os.Environ(), "HOME="+t.TempDir(), "XDG_DATA_HOME=", "TMPDIR="+t.TempDir())
	out, err := r.command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := r.command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if r.command.ProcessState == nil { // a test that failed half way
			_ = r.command.Process.Kill()
			_ = r.command.Wait()
		}
	})
	r.said = bufio.NewReader(out)
	r.address = r.until(served)
	return r
}

// until reads what it says up to a line like that and gives what stands in brackets there.
func (r *running) until(like *regexp.Regexp) string {
	r.t.Helper()
	for {
		line, err := r.said.ReadString('\n')
		r.told.WriteString(line)
		if m := like.FindStringSubmatch(line); m != nil {
			return m[1]
		}
		if err != nil {
			r.t.Fatalf("it says nothing like %v: %v\n%s%s", like, err, r.told.String(), r.errs.String())
		}
	}
}

// stop sends a signal and waits for the end, which must be a good one.
func (r *running) stop(s os.Signal) {
	r.t.Helper()
	if err := r.command.Process.Signal(s); err != nil {
		r.t.Fatal(err)
	}
	rest, _ := io.ReadAll(r.said)
	r.told.Write(rest)
	if err := r.command.Wait(); err != nil {
		r.t.Errorf("it ends with %v\n%s", err, r.errs.String())
	}
	if strings.Contains(r.errs.String(), "ERROR") {
		r.t.Errorf("it logged\n%s", r.errs.String())
	}
}

func (r *running) get(client *http.Client, path string) (int, string) {
	r.t.Helper()
	w, err := client.Get(r.address + path)
	if err != nil {
		r.t.Fatal(err)
	}
	defer w.Body.Close()
	text, err := io.ReadAll(w.Body)
	if err != nil {
		r.t.Fatal(err)
	}
	return w.StatusCode, string(text)
}

var firstLink = regexp.MustCompile(`^  (https?://\S+/welcome\?secret=\S+)\n$`)

func TestServeFromTheFirstStartToTheStop(t *testing.T) {
	base := filepath.Join(t.TempDir(), "house", "shop.db")
	r := start(t, "serve", "--shop", base, "--log", "json")
	link := r.until(firstLink)
	if !strings.HasPrefix(link, r.address+"/") {
		t.Errorf("served at %s, and the link is %s", r.address, link)
	}
	for path, want := range map[string]string{"/healthz": "alive\n", "/readyz": "ready\n"} {
		if status, text := r.get(http.DefaultClient, path); status != http.StatusOK || text != want {
			t.Errorf("%s: %d %q", path, status, text)
		}
	}
	if status, text := r.get(http.DefaultClient, "/metrics"); status != http.StatusOK || !strings.Contains(text, "foldwright_store_up 1") {
		t.Errorf("/metrics: %d %s", status, text)
	}
	if status, _ := r.get(http.DefaultClient, "/api/v1/jobs"); status != http.StatusUnauthorized {
		t.Errorf("nobody gets %d from the API", status)
	}
	r.stop(syscall.SIGINT)
	if c, err := net.Dial("tcp", strings.TrimPrefix(r.address, "http://")); err == nil {
		c.Close()
		t.Error("it answers after its end")
	}
	// At the next start the link of before is still good, and so the new one.
	again := start(t, "serve", "--shop", base)
	if link := again.until(firstLink); link == "" {
		t.Error("no link although nobody can log in yet")
	}
	again.stop(syscall.SIGTERM)
}

var guest = regexp.MustCompile(`^  (lead +\S+) `)

func TestDemoIsServed(t *testing.T) {
	r := start(t, "demo", "--iterations", "5", "--log", "off")
	if !strings.Contains(r.told.String(), "alder") {
		t.Error("the plan was not printed")
	}
	name, password, _ := strings.Cut(r.until(guest), " ")
	jar, _ := cookiejar.New(nil)
	client := &http.Client{Jar: jar, Timeout: time.Minute}
	w, err := client.PostForm(r.address+"/login", url.Values{"name": {name}, "password": {strings.TrimSpace(password)}, "to": {"/"}})
	if err != nil {
		t.Fatal(err)
	}
	w.Body.Close()
	if u, _ := url.Parse(r.address); len(jar.Cookies(u)) == 0 {
		t.Errorf("the lead cannot log in: %s", w.Status)
	}
	if status, text := r.get(client, "/api/v1/plans"); status != http.StatusOK || !strings.Contains(text, "search") {
		t.Errorf("the plan is not among the drafts: %d %s", status, text)
	}
	tmp := ""
	for _, v := range r.command.Env {
		if at, ok := strings.CutPrefix(v, "TMPDIR="); ok {
			tmp = at
		}
	}
	if left, _ := filepath.Glob(filepath.Join(tmp, "foldwright-demo-*")); len(left) != 1 {
		t.Errorf("the database of the demo is not where it should be: %v", left)
	}
	r.stop(syscall.SIGTERM)
	if left, _ := filepath.Glob(filepath.Join(tmp, "*")); len(left) != 0 {
		t.Errorf("the demo leaves %v behind", left)
	}
}

func TestServeOverTLS(t *testing.T) {
	dir := t.TempDir()
	cert, key := filepath.Join(dir, "folding.pem"), filepath.Join(dir, "folding.key")
	pem := servetest.Certificate(t, cert, key, "127.0.0.1")
	r := start(t, "serve", "--shop", filepath.Join(dir, "shop.db"), "--tls-cert", cert, "--tls-key", key)
	if !strings.HasPrefix(r.address, "https://") {
		t.Fatalf("served at %s", r.address)
	}
	pool := x509.NewCertPool()
	pool.AppendCertsFromPEM(pem)
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool, MinVersion: tls.VersionTLS12}}}
	if status, text := r.get(client, "/healthz"); status != http.StatusOK || text != "alive\n" {
		t.Errorf("%d %q", status, text)
	}
	r.stop(syscall.SIGINT)
}
