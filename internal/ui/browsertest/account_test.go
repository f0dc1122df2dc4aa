package browsertest

import (
	"strings"
	"testing"

	"foldwright/internal/access"
)

// Somebody logs in, goes where they wanted to go, and out again; a wrong password lets nobody in.
func TestLogInAndOut(t *testing.T) {
	a := demoApp(t)
	b := a.open()
	b.visit("/account")
	if at := b.at(); !strings.HasPrefix(at, "/login?to=") {
		t.Fatalf("somebody unknown is at %s", at)
	}
	b.look("login")
	g := a.guests[access.Viewer]
	b.fill("#name", g.Name)
	b.fill("#password", "not the password")
	if status := b.press("main form button.main"); status != 403 {
		t.Errorf("a wrong password gives %d, want 403", status)
	}
	b.says("main", "no account has this name and this password")
	b.fill("#password", g.Password)
	b.press("main form button.main")
	if at := b.at(); at != "/account" {
		t.Errorf("after the log-in one is at %s, want /account", at)
	}
	b.look("account")
	b.press(`form[action="/logout"] button`)
	b.visit("/account")
	if at := b.at(); !strings.HasPrefix(at, "/login") {
		t.Errorf("after the log-out one is at %s", at)
	}
}
