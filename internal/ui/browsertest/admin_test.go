package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	cdp "github.com/chromedp/chromedp"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/serve"
	"foldwright/internal/words"
)

// Who rules invites somebody, who chooses a password by the link and is in; a viewer sees no admin pages.
func TestInvite(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Admin)
	b.visit("/admin")
	b.look("admin")
	b.visit("/admin/people")
	b.fill("#name", "marten")
	b.do(cdp.SetValue(cdp.CSS("#role"), "operator"))
	b.press(`form[action="/admin/people"] button.main`)
	link := b.text("#link")
	b.look("admin-people")
	guest := a.open()
	if status := guest.visit(strings.TrimPrefix(link, a.address)); status != 200 {
		t.Fatalf("the link %s gives %d", link, status)
	}
	guest.look("welcome")
	guest.fill("#password", "short")
	guest.fill("#again", "shorter")
	guest.press("main form button.main")
	guest.says("main", "the two are not the same")
	guest.fill("#password", "forty two quiet herons")
	guest.fill("#again", "forty two quiet herons")
	guest.press("main form button.main")
	guest.says("header", "marten")
	if status := guest.visit("/admin"); status != 403 {
		t.Errorf("an operator gets %d from the admin's pages, want 403", status)
	}
	guest.look("refused")
	if status := guest.visit(strings.TrimPrefix(link, a.address)); status != 404 {
		t.Errorf("a link used twice gives %d, want 404", status)
	}
}

// Tokens are shown once, sessions are listed and ended, the trail tells all of it.
func TestTokensSessionsTrail(t *testing.T) {
	a := demoApp(t)
	b, other := a.openAs(access.Admin), a.openAs(access.Lead)
	b.visit("/admin/tokens")
	b.look("admin-tokens-none")
	b.fill("#name", "hall screen")
	b.press(`form[action="/admin/tokens"] button.main`)
	if secret := b.text("#secret"); !strings.HasPrefix(secret, "fw_") {
		t.Errorf("the secret is %q", secret)
	}
	b.look("admin-tokens")
	b.visit("/admin/sessions")
	b.look("admin-sessions")
	b.press(`form[action="/admin/sessions/end"] button`)
	other.visit("/account")
	if at := other.at(); !strings.HasPrefix(at, "/login") {
		t.Errorf("whose session was ended is at %s", at)
	}
	b.visit("/admin/shop")
	b.look("admin-shop")
	b.visit("/edit/weights?back=/admin/shop")
	b.look("edit-weights")
	b.fill(`[name="late"]`, "2.5")
	b.press(`.form-end button.main`)
	b.says(".flash", "Saved.")
	b.look("flash")
	b.visit("/admin/trail")
	b.says("main", "hall screen")
	b.says("main", "2.5")
	b.look("admin-trail")
	b.click(`form[action="/undo"] button`)
	b.until(`document.getElementById("confirm").open`)
	b.look("confirm")
	b.press(`#confirm button[value="yes"]`)
	b.says(".flash", "Taken back.")
}

// Two people edit one folder: the second sees both, and may take either.
func TestEditWithConflict(t *testing.T) {
	a := demoApp(t)
	b, other := a.openAs(access.Admin), a.openAs(access.Admin)
	const at = "/edit/folder?name=alder&back=/admin/shop"
	b.visit(at)
	b.look("edit-folder")
	other.visit(at)
	other.fill(`[name="serial"]`, "B-2")
	other.press(`.form-end button.main`)
	b.fill(`[name="serial"]`, "A-1")
	b.fill(`[name="units[0].speed"]`, "fast")
	if status := b.press(`.form-end button.main`); status != 422 {
		t.Errorf("a wrong speed gives %d", status)
	}
	b.look("edit-faults")
	b.fill(`[name="units[0].speed"]`, "140")
	if status := b.press(`.form-end button.main`); status != 409 {
		t.Errorf("the conflict gives %d", status)
	}
	b.look("edit-conflict")
	b.click(`[name="take:serial"][value="theirs"]`)
	b.press(`.form-end button.main`)
	b.visit(at)
	if got := eval[string](b, `document.querySelector('[name="serial"]').value + " " + document.querySelector('[name="units[0].speed"]').value`); got != "B-2 140" {
		t.Errorf("kept: %q, want %q", got, "B-2 140")
	}
}

// Keys: a letter goes to a place, ? lists them; nothing happens while somebody types.
func TestKeys(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Admin)
	b.visit("/account")
	b.do(cdp.KeyEvent("?"))
	b.until(`document.getElementById("keys").open && document.querySelectorAll("#keys dt").length > 3`)
	b.look("keys")
	b.do(cdp.KeyEvent("\u001b"))
	b.until(`!document.getElementById("keys").open`)
	if _, err := cdp.RunResponse(b.ctx, cdp.KeyEvent("a")); err != nil {
		t.Fatal(err)
	}
	if at := b.at(); at != "/admin" {
		t.Errorf("the key a leads to %s", at)
	}
	b.visit("/admin/trail")
	b.do(cdp.KeyEvent("/"))
	b.until(`document.activeElement.id === "what"`)
	b.do(cdp.KeyEvent("j"))
	if at, typed := b.at(), eval[string](b, `document.getElementById("what").value`); at != "/admin/trail" || !strings.HasSuffix(typed, "j") {
		t.Errorf("typed j into a field, which holds %q; the page is %s", typed, at)
	}
}

// Every page in every language: the page says which, and longer words than the English ones find their room, on a telephone and
// on a screen in the office.
func TestLanguages(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Admin)
	for _, lang := range words.Langs() {
		b.visit("/account")
		b.do(cdp.SetValue(cdp.CSS("#lang"), string(lang)))
		b.press(`form[action="/account"] button`)
		for _, at := range []string{
			"/day", "/jobs", "/rack", "/folders", "/account", "/admin", "/admin/people", "/admin/tokens", "/admin/sessions", "/admin/trail",
			"/admin/shop", "/admin/keep", "/edit/folder?name=alder", "/edit/standards", "/edit/house", "/new/job", "/nowhere",
		} {
			b.visit(at)
			if got := eval[string](b, "document.documentElement.lang"); got != string(lang) {
				t.Errorf("%s speaks %s, want %s", at, got, lang)
			}
			for _, width := range []int64{360, 1024, 1280} {
				b.do(cdp.EmulateViewport(width, 800))
				b.fits(fmt.Sprintf("%s in %s at %d", at, lang, width))
			}
		}
	}
}

// The shop goes out as a file and comes in again, a broken file is refused with its lines, a backup is downloaded.
func TestKeep(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Admin)
	b.visit("/admin/keep")
	b.look("admin-keep")
	good, broken := filepath.Join(t.TempDir(), "shop.yaml"), filepath.Join(t.TempDir(), "broken.yaml")
	for path, text := range map[string]string{good: string(demo.File()), broken: "shop: broken\nunits: furlongs\n"} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b.do(cdp.SetUploadFiles(cdp.CSS("#import"), []string{broken}))
	if status := b.press(`form[action="/admin/import"] button`); status != 422 {
		t.Errorf("a broken file gives %d", status)
	}
	b.says("#keep-faults", "line 2")
	b.look("admin-keep-faults")
	b.do(cdp.SetUploadFiles(cdp.CSS("#import"), []string{good}))
	if status := b.press(`form[action="/admin/import"] button`); status != 409 {
		t.Errorf("a second shop without leave to replace gives %d", status)
	}
	b.click("#replace")
	b.do(cdp.SetUploadFiles(cdp.CSS("#import"), []string{good}))
	b.press(`form[action="/admin/import"] button`)
	b.says(".flash", "Demo bindery is imported.")
	got := eval[string](b, `fetch("/admin/backup", {method: "POST"}).then(async r => r.status + " " + new TextDecoder().decode((await r.arrayBuffer()).slice(0, 15)))`)
	if got != "200 SQLite format 3" {
		t.Errorf("the backup is %q", got)
	}
}

// firstLink serves a database without anything in it, and opens the link of the first admin.
func firstLink(t *testing.T) *tab {
	t.Helper()
	start(t)
	a := served(t, serve.Config{Shop: filepath.Join(t.TempDir(), "shop.db")})
	link, err := a.server.FirstLink(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	b := a.open()
	b.visit(strings.TrimPrefix(link, a.address))
	return b
}

// chooses gives the first admin a name and a password.
func (b *tab) chooses() {
	b.t.Helper()
	b.fill("#name", "Wren")
	b.fill("#password", "six herons under a bridge")
	b.fill("#again", "six herons under a bridge")
	b.press("main form button.main")
}

// A server without a shop says how to get one, and takes it.
func TestFirstDay(t *testing.T) {
	b := firstLink(t)
	b.look("first")
	b.chooses()
	b.says("main", "There is no shop yet")
	b.look("no-shop")
	b.press("main a.button.main")
	file := filepath.Join(t.TempDir(), "shop.yaml")
	if err := os.WriteFile(file, demo.File(), 0o600); err != nil {
		t.Fatal(err)
	}
	b.do(cdp.SetUploadFiles(cdp.CSS("#import"), []string{file}))
	b.press(`form[action="/admin/import"] button`)
	b.says(".flash", "Demo bindery is imported.")
	for _, at := range []string{"/day", "/jobs", "/rack", "/folders", "/admin"} {
		if status := b.visit(at); status != 200 {
			t.Errorf("%s gives %d", at, status)
		}
	}
}

// Whoever only wants to look around begins with the demo shop.
func TestFirstDayWithTheDemo(t *testing.T) {
	b := firstLink(t)
	b.chooses()
	b.press(`form[action="/begin"] button`)
	if at := b.at(); at != "/day" {
		t.Errorf("the demo begins at %s, want /day", at)
	}
	b.says(".flash", "Demo bindery is imported.")
}
