package gate

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"foldwright/internal/access"
)

// zeros are so many bytes that are not held in memory.
func zeros(n int64) io.Reader { return io.LimitReader(zero{}, n) }

type zero struct{}

func (zero) Read(p []byte) (int, error) { clear(p); return len(p), nil }

func TestHowMuchIsTaken(t *testing.T) {
	h := newHouse(t)
	tokens := map[access.Role]string{}
	for _, role := range access.Roles() {
		h.moveIn(t, role.String(), role)
		tokens[role] = h.token(t, role.String(), role)
	}
	const mb = 1 << 20
	for _, c := range []struct {
		path string
		role access.Role
		size int64
		want int
	}{
		{"/api/v1/jobs", access.Lead, mb, 201},
		{"/api/v1/jobs", access.Lead, mb + 1, 413},
		{"/api/v1/jobs", access.Lead, 100 * mb, 413},
		{"/api/v1/import", access.Admin, 10 * mb, 200},
		{"/api/v1/import", access.Admin, 10*mb + 1, 413},
		{"/api/v1/import", access.Viewer, 2 * mb, 413},
		{"/api/v1/restore", access.Admin, 50 * mb, 200},
		{"/api/v1/restore", access.Lead, 2 * mb, 413},
		{"/", access.Admin, 2 * mb, 413},
	} {
		for _, told := range []bool{true, false} { // with Content-Length, or in chunks
			r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, h.server.URL+c.path, zeros(c.size))
			if err != nil {
				t.Fatal(err)
			}
			if told {
				r.ContentLength = c.size
			}
			r.Header.Set("Authorization", "Bearer "+tokens[c.role])
			w, err := http.DefaultClient.Do(r)
			if err != nil { // cut off in the middle of sending: refused, too
				if c.want != 413 {
					t.Errorf("%s of %d: %v", c.path, c.size, err)
				}
				continue
			}
			w.Body.Close()
			if w.StatusCode != c.want {
				t.Errorf("%s of %d by %s, length told %v: %s, want %d", c.path, c.size, c.role, told, w.Status, c.want)
			}
		}
	}
}

// raw sends bytes as no proper program would and reads the first line of the answer.
func (h *house) raw(t *testing.T, text string) string {
	t.Helper()
	c, err := net.Dial("tcp", h.server.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := io.WriteString(c, text); err != nil {
		t.Fatal(err)
	}
	line, _ := bufio.NewReader(c).ReadString('\n') // cut off is an answer, too
	return strings.TrimSpace(line)
}

func TestHostileRequests(t *testing.T) {
	h := newHouse(t)
	h.moveIn(t, "ada", access.Lead)
	for _, c := range []struct{ what, text, want string }{
		{"up and out", "GET /static/../../../etc/passwd HTTP/1.1\r\nHost: x\r\n\r\n", "HTTP/1.1 307"},
		{"up and out, escaped", "GET /jobs/..%2f..%2fetc%2fpasswd HTTP/1.1\r\nHost: x\r\n\r\n", "HTTP/1.1 303"},
		{"two slashes", "GET //evil.example/x HTTP/1.1\r\nHost: x\r\n\r\n", "HTTP/1.1 307"},
		{"an absolute address", "GET http://evil.example/jobs HTTP/1.1\r\nHost: x\r\n\r\n", "HTTP/1.1 303"},
		{"a byte 0", "GET /jobs/%00 HTTP/1.1\r\nHost: x\r\n\r\n", "HTTP/1.1 303"},
		{"no UTF-8", "GET /jobs/%ff%fe HTTP/1.1\r\nHost: x\r\n\r\n", "HTTP/1.1 303"},
		{"no HTTP", "hello\r\n\r\n", "HTTP/1.1 400"},
		{"two lengths", "POST /login HTTP/1.1\r\nHost: x\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\nhello", "HTTP/1.1 400"},
		{"length and chunks", "POST /login HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: xyz\r\n\r\nhello", "HTTP/1.1 501"},
		{"a negative length", "POST /login HTTP/1.1\r\nHost: x\r\nContent-Length: -5\r\n\r\n", "HTTP/1.1 400"},
		{"a header of two lines", "GET / HTTP/1.1\r\nHost: x\r\nX: a\r\n b\r\nAuthorization\r\n\r\n", "HTTP/1.1 400"},
		{"an endless name", "POST /login HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 99999999999\r\n\r\nname=", "HTTP/1.1 413"},
	} {
		if got := h.raw(t, c.text); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// A redirect of the multiplexer never leads elsewhere.
func TestCleanedPathsStayHere(t *testing.T) {
	h := newHouse(t)
	for _, path := range []string{"//evil.example/x", "/static/../..//evil.example", "/./..//evil.example"} {
		c, err := net.Dial("tcp", h.server.Listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(c, "GET %s HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n", path)
		w, err := http.ReadResponse(bufio.NewReader(c), nil)
		if err != nil {
			t.Fatal(err)
		}
		w.Body.Close()
		c.Close()
		if to := w.Header.Get("Location"); strings.HasPrefix(to, "//") || strings.Contains(to, "://") {
			t.Errorf("%s leads to %s", path, to)
		}
	}
}

// heldUp sends half a request and waits to be hung up on.
func (h *house) heldUp(t *testing.T, method, path string) {
	t.Helper()
	c, err := net.Dial("tcp", h.server.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fmt.Fprintf(c, "%s %s HTTP/1.1\r\nHost: x\r\nContent-Length: 100\r\n\r\na", method, path)
	if err := c.SetReadDeadline(time.Now().Add(10 * time.Second)); err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(io.Discard, c); errors.Is(err, os.ErrDeadlineExceeded) {
		t.Errorf("%s %s: half a request keeps the connection", method, path)
	}
}

// Goal: a client that sends a byte now and then holds nothing up. Method: the time is made short, and the client waits to be cut off.
func TestSlowClients(t *testing.T) {
	h := newHouse(t)
	h.arrives = 50 * time.Millisecond
	h.moveIn(t, "ada", access.Lead)
	secret := h.token(t, "ada", access.Lead)
	got := h.raw(t, "POST /api/v1/jobs HTTP/1.1\r\nHost: x\r\nAuthorization: Bearer "+secret+"\r\nContent-Length: 100\r\n\r\nhalf a jo")
	if strings.HasPrefix(got, "HTTP/1.1 2") {
		t.Errorf("half a job was taken: %q", got)
	}
	if w := h.browser(t).get("/api/v1/who", "Authorization", "Bearer "+secret); w.StatusCode != http.StatusOK {
		t.Errorf("afterwards: %s", w.Status)
	}
	// What is open to all holds nobody up either, nor does a door behind which a lot may come from others: the connection is closed.
	for _, path := range []string{"/static/app.css", "/login", "/metrics", "/nowhere", "/api/v1/openapi.json", "/api/v1/restore", "/admin/restore"} {
		for _, method := range []string{"GET", "POST"} {
			h.heldUp(t, method, path)
		}
	}
	// Who has sent everything may wait as long as the work takes: the deadline is lifted.
	if w := h.browser(t).ask("POST", "/api/v1/jobs", "a whole job", "Authorization", "Bearer "+secret); w.StatusCode != http.StatusCreated {
		t.Errorf("a whole job: %s", w.Status)
	}
}
