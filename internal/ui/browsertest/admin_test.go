package browsertest

import (
	"strings"
	"testing"

	cdp "github.com/chromedp/chromedp"

	"foldwright/internal/access"
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
