package browsertest

import (
	"context"
	"fmt"
	"strings"
	"testing"

	proto "github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	cdp "github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"foldwright/internal/access"
	"foldwright/internal/job"
)

// board opens a page of the day and waits until its jobs stand on the time axis.
func (b *tab) board(path string) {
	b.t.Helper()
	b.visit(path)
	b.shows("true")
}

const onBoard = `document.querySelector("#day")?.dataset.view === "board" && document.querySelector("[data-board]").style.getPropertyValue("--minute") !== ""`

// drag takes a job by the mouse to the front of another one's block, or of its back half.
func (b *tab) drag(name, onto string, part float64) {
	b.t.Helper()
	at := func(name string, part float64) (x, y float64) {
		box := eval[[]float64](b, fmt.Sprintf(`(() => { const r = document.querySelector('#day tr[data-job="%s"]').getBoundingClientRect(); return [r.left + r.width * %f, r.top + r.height / 2] })()`, name, part))
		return box[0], box[1]
	}
	x0, y0 := at(name, 0.5)
	x1, y1 := at(onto, part)
	b.do(cdp.MouseEvent(cdp.MousePressed, x0, y0, cdp.ButtonLeft, cdp.ClickCount(1)))
	for i := 1; i <= 8; i++ {
		b.do(cdp.MouseEvent(cdp.MouseMoved, x0+(x1-x0)*float64(i)/8, y0+(y1-y0)*float64(i)/8, cdp.ButtonLeft))
	}
	b.until(`document.querySelector(".drop-mark") !== null`)
	b.do(cdp.MouseEvent(cdp.MouseReleased, x1, y1, cdp.ButtonLeft, cdp.ClickCount(1)))
}

// order is the jobs of a folder as the page shows them.
func (b *tab) order(folder string) string {
	b.t.Helper()
	return eval[string](b, fmt.Sprintf(`[...document.querySelectorAll('[data-lane="%s"] tr[data-job]')].map(r => r.dataset.job).join(" ")`, folder))
}

// draft is the address of the draft that the page shows.
func (b *tab) draft() string {
	b.t.Helper()
	return eval[string](b, `document.getElementById("day-live").dataset.day`)
}

// another waits until the page shows another draft than that one, and tells which; the page may be loaded anew meanwhile.
func (b *tab) another(than string) string {
	b.t.Helper()
	b.shows(fmt.Sprintf(`document.getElementById("day-live")?.dataset.day !== %q`, than))
	return b.draft()
}

// shows waits until the board is there and something is true of it.
func (b *tab) shows(script string) {
	b.t.Helper()
	for {
		_, err := cdp.Run(b.ctx, cdp.Poll[cdp.Void](onBoard+" && "+script))
		if err == nil {
			return
		}
		if !strings.Contains(err.Error(), "context with specified id") && !strings.Contains(err.Error(), "navigated") { // the page that was asked is gone, ask the next one
			b.must(fmt.Errorf("waited for %s: %w", script, err))
		}
	}
}

const given = "/day/drafts/given"

// Goal: a lead moves jobs by mouse and keys, sees at once what that does, and goes back and forth; what cannot be is said.
func TestJobsAreMoved(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.board("/day")
	b.look("day")
	before := b.order("alder")
	if !strings.HasPrefix(before, "2101 2105 2109 ") {
		t.Fatalf("alder begins with %s", before)
	}
	b.board("/day")
	b.drag("2101", "2105", 0.8)
	first := b.another(given)
	if got := b.order("alder"); !strings.HasPrefix(got, "2105 2101 2109 ") {
		t.Errorf("after the drag alder begins with %.20s", got)
	}
	b.says("#day-figures", "against the order given")
	b.says("#day-moves", "2105")
	if said := eval[string](b, `document.getElementById("day-status").textContent`); !strings.HasPrefix(said, "Moved") {
		t.Errorf("said is %q", said)
	}
	if on := eval[string](b, `document.activeElement.closest("tr").dataset.job`); on != "2101" {
		t.Errorf("the focus is on %s, want the job that was moved", on)
	}
	b.do(cdp.KeyEvent(kb.ArrowRight), cdp.KeyEvent(kb.ArrowRight), cdp.KeyEvent(kb.ArrowRight, cdp.KeyModifiers(cdp.ModifierAlt)))
	second := b.another(first)
	if got := b.order("alder"); !strings.HasPrefix(got, "2105 2101 2109 2116 2111 ") {
		t.Errorf("after the key alder begins with %.24s", got)
	}
	b.says("#day-figures", "against the draft before")
	b.board(second)
	b.do(cdp.KeyEvent("z"))
	b.shows(fmt.Sprintf(`document.getElementById("day-live").dataset.day === %q`, first))
	b.do(cdp.KeyEvent("y"))
	b.shows(fmt.Sprintf(`document.getElementById("day-live").dataset.day === %q`, second))
	b.do(cdp.KeyEvent("z"))
	b.shows(fmt.Sprintf(`document.getElementById("day-live").dataset.day === %q`, first))
	b.do(cdp.KeyEvent("z"))
	b.shows(fmt.Sprintf(`document.getElementById("day-live").dataset.day === %q`, given))
	if got := b.order("alder"); got != before {
		t.Errorf("all undone, alder is %s", got)
	}
	eval[any](b, `history.back()`)
	b.shows(fmt.Sprintf(`document.getElementById("day-live").dataset.day === %q`, first))
	if got := b.order("alder"); !strings.HasPrefix(got, "2105 2101 2109 ") {
		t.Errorf("by the way back of the browser alder begins with %.20s", got)
	}
}

// Goal: a job put where it cannot run stays, and the page says why beside it.
func TestMoveThatCannotBe(t *testing.T) {
	b := demoApp(t).openAs(access.Lead)
	b.board("/day")
	b.drag("2107", "2108", 0.2) // a section of a book, to the small folder
	b.until(`document.querySelector('#day-refused [data-refused="2107"]') !== null`)
	b.says("#day-refused", "2107 stays where it is.")
	b.says("#day-refused", "rowan cannot run job 2107")
	if away := eval[float64](b, `document.querySelector("[data-refused]").getBoundingClientRect().top - document.querySelector('#day tr[data-job="2107"]').getBoundingClientRect().bottom`); away < 0 || away > 20 {
		t.Errorf("the refusal stands %.0f px below its job", away)
	}
	b.axe("a move refused")
	b.shoot("day-refused-1280-light.png")
	if at := b.at(); at != "/day" {
		t.Errorf("the page is %s now", at)
	}
	b.click("#day-refused [data-dismiss]")
	b.until(`document.querySelector("[data-refused]") === null`)
}

// Goal: all of a job stands in a dialog; from there it is moved and held, on a telephone, too.
func TestJobOfTheDay(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.board("/day")
	b.click(`#day tr[data-job="2105"] th a`)
	b.until(`document.querySelector("#day-job[open]") !== null`)
	b.says("#day-job", "place 2")
	b.axe("a job of the day")
	b.click("#day-job .rescue a")
	b.until(`document.querySelector("#day-job .rescues") !== null`)
	b.do(cdp.EmulateViewport(360, 640))
	b.axe("a job of the day at 360")
	b.shoot("day-job-360-light.png")
	b.do(cdp.EmulateViewport(1280, 800))
	b.click(`#day-job .move-form button[name="step"]`) // one place earlier
	b.another(given)
	if got := b.order("alder"); !strings.HasPrefix(got, "2105 2101 ") {
		t.Errorf("alder begins with %.20s", got)
	}
	if open := eval[bool](b, `document.querySelector("#day-job") !== null`); open {
		t.Error("the dialog stays open after the move")
	}
	b.board("/day")
	b.click(`#day tr[data-job="2105"] th a`)
	b.until(`document.querySelector("#day-job[open]") !== null`)
	b.press(`#day-job form[action$="/pin"] button`)
	b.says(".flash", "2105 is held on alder.")
	b.until(`document.querySelector('#day tr[data-job="2105"] .tag:not(.bad)') !== null`)
	b.press(`.flash form button`)
	b.says(".flash", "Taken back.")
	b.until(`document.querySelector('#day tr[data-job="2105"] .tag:not(.bad)') === null`)
	b.visit("/day/drafts/given/jobs/2105")
	b.look("day-job-page")
}

// Goal: a search runs in the background, everybody sees how far it is, who began it stops it and is led to what it found,
// which becomes the order of the day, and does not when somebody changed the shop meanwhile.
func TestSearchAndTakeOver(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.board("/day")
	b.click(`.menu:has(form[action$="/search"]) > summary`)
	b.do(cdp.SetValue(cdp.CSS("#search-seconds"), "300"))
	b.axe("the search form")
	b.click(`form[action$="/search"] button.main`)
	b.until(`document.querySelector("#day-searches progress")?.value >= 0 && document.querySelector("#day-searches").textContent.includes("Cost so far")`)
	b.shoot("day-search-1280-light.png")
	viewer := a.openAs(access.Viewer)
	viewer.board("/day")
	viewer.says("#day-searches", "lead searches for a better order")
	if may := eval[bool](viewer, `document.querySelector("#day-searches button, #day-move, #day-accept") !== null`); may {
		t.Error("a viewer is shown what only a lead may")
	}
	b.click(`#day-searches .search-stop button`)
	draft := b.another(given)
	b.says("header.head", "Found for lead")
	b.says("#day-moves", "why")
	viewer.until(`document.querySelector("#day-searches").textContent.includes("lead stopped the search.")`)
	b.look("day-found")

	b.board(draft)
	_, err := a.server.Desk().Pin(access.With(t.Context(), access.Who{Name: "admin", Role: access.Admin}), "2160", job.Pin{Folder: "alder", Position: 1}) // where no search would put the last job of the day
	if err != nil {
		t.Fatal(err)
	}
	if status := b.press("#day-accept"); status != 409 {
		t.Errorf("taking over after a change gives %d, want 409", status)
	}
	b.says(".notice", "Somebody changed the shop while you looked")
	b.says(".notice", "2160 pinned to alder")
	b.says("#day-live", "The draft was brought up to date")
	b.axe("a draft after a change")
	b.shoot("day-stale-1280-light.png")
	b.press("#day-accept")
	if at := b.at(); at != "/day" {
		t.Errorf("after taking over one is at %s", at)
	}
	b.says(".flash", "The draft is the order of the day now.")
	taken := b.order("birch")
	b.press(".flash form button")
	b.says(".flash", "Taken back.")
	if b.order("birch") == taken {
		t.Error("undo did not bring the order back")
	}
	b.visit("/day/drafts")
	b.says("main", "Found for lead")
	b.look("day-drafts")
	b.visit("/day/drafts/given/picture")
	b.look("day-picture")
}

// Goal: who may only look changes nothing, whatever is sent; an operator says what runs and what is finished.
func TestDayByRole(t *testing.T) {
	a := demoApp(t)
	viewer := a.openAs(access.Viewer)
	viewer.board("/day")
	for path, form := range map[string]string{
		"/day/drafts/given/move": "job=2101&folder=alder", "/day/jobs/2101/pin": "folder=alder", "/day/jobs/2101/start": "folder=alder",
		"/day/drafts/given/search": "seconds=5", "/day/drafts/given/accept": "revision=1",
	} {
		status := eval[int](viewer, fmt.Sprintf(`fetch(%q, {method: "POST", body: new URLSearchParams(%q)}).then(r => r.status)`, path, form))
		if status != 403 {
			t.Errorf("a viewer gets %d for %s, want 403", status, path)
		}
	}
	b := a.openAs(access.Operator)
	b.board("/day")
	b.click(`#day tr[data-job="2101"] th a`)
	b.until(`document.querySelector("#day-job[open]") !== null`)
	if may := eval[bool](b, `document.querySelector("#day-job .move-form, #day-job form[action$='/pin']") !== null`); may {
		t.Error("an operator is shown how to move or hold jobs")
	}
	b.press(`#day-job form[action$="/start"] button`)
	b.says(".flash", "2101 runs on alder.")
	b.until(`document.querySelector('#day tr[data-job="2101"]').hasAttribute("data-started")`)
	b.click(`#day tr[data-job="2101"] th a`)
	b.until(`document.querySelector("#day-job[open]") !== null`)
	b.press(`#day-job form[action$="/finish"] button`)
	b.says(".flash", "2101 is finished on alder.")
	if left := eval[bool](b, `document.querySelector('#day tr[data-job="2101"]') !== null`); left {
		t.Error("a finished job still stands on the day")
	}
}

// Goal: jobs are found, late ones picked out, and the list says the same as the board.
func TestFindOnTheDay(t *testing.T) {
	b := demoApp(t).openAs(access.Viewer)
	b.board("/day")
	b.fill("#day-find", "song book")
	b.until(`document.querySelectorAll("#day tr.found").length === 5`)
	b.axe("some jobs found")
	eval[any](b, `(() => { const f = document.getElementById("day-find"); f.value = ""; f.dispatchEvent(new Event("input", {bubbles: true})) })()`)
	b.click("#day-late")
	b.until(`document.querySelectorAll("#day tr.found").length === 14`)
	b.click(`[data-view-to="list"]`)
	if shown := eval[int](b, `[...document.querySelectorAll("#day tr[data-job]")].filter(r => r.getClientRects().length > 0).length`); shown != 14 {
		t.Errorf("the list shows %d late jobs, want 14", shown)
	}
	b.axe("late jobs as a list")
	b.shoot("day-list-late-1280-light.png")
	b.visit("/day?late=1&find=tide")
	b.says("[data-found]", "job")
}

// touch is a finger on the screen.
func (b *tab) touch(kind input.DispatchTouchEventType, points ...*input.TouchPoint) {
	b.t.Helper()
	b.do(cdp.Func(func(ctx context.Context, t *cdp.Target) error {
		_, err := proto.Call(ctx, t, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: append([]*input.TouchPoint{}, points...)})
		return err
	}))
}

// Goal: on a telephone the day is a list, and a finger on the grip takes a job to another place.
func TestJobsAreMovedByFinger(t *testing.T) {
	b := demoApp(t).openAs(access.Lead)
	b.do(cdp.EmulateViewport(360, 700, cdp.EmulateTouch))
	b.board("/day")
	eval[any](b, `document.querySelector('#day tr[data-job="2105"]').scrollIntoView(false)`)
	box := eval[[]float64](b, `(() => { const g = document.querySelector('#day tr[data-job="2105"] [data-grip]').getBoundingClientRect(), o = document.querySelector('#day tr[data-job="2101"]').getBoundingClientRect();
		return [g.left + g.width / 2, g.top + g.height / 2, o.top + 10] })()`)
	b.touch(input.DispatchTouchEventTypeTouchStart, &input.TouchPoint{X: box[0], Y: box[1]})
	for i := 1; i <= 6; i++ {
		b.touch(input.DispatchTouchEventTypeTouchMove, &input.TouchPoint{X: box[0], Y: box[1] + (box[2]-box[1])*float64(i)/6})
	}
	b.until(`document.querySelector(".drop-mark") !== null`)
	b.touch(input.DispatchTouchEventTypeTouchEnd)
	b.another(given)
	if got := b.order("alder"); !strings.HasPrefix(got, "2105 2101 ") {
		t.Errorf("alder begins with %.20s", got)
	}
}

// Goal: on a tablet the day is a board, and a finger that stays on a job takes it along.
func TestJobsAreMovedByLongTouch(t *testing.T) {
	b := demoApp(t).openAs(access.Lead)
	b.do(cdp.EmulateViewport(1024, 768, cdp.EmulateTouch))
	b.board("/day")
	box := eval[[]float64](b, `(() => { const r = document.querySelector('#day tr[data-job="2105"]').getBoundingClientRect(), o = document.querySelector('#day tr[data-job="2101"]').getBoundingClientRect();
		return [r.left + r.width / 2, r.top + r.height / 2, o.left + o.width / 4] })()`)
	b.touch(input.DispatchTouchEventTypeTouchStart, &input.TouchPoint{X: box[0], Y: box[1]})
	b.until(`document.querySelector("#day tr.lifted") !== null`)
	for i := 1; i <= 6; i++ {
		b.touch(input.DispatchTouchEventTypeTouchMove, &input.TouchPoint{X: box[0] + (box[2]-box[0])*float64(i)/6, Y: box[1]})
	}
	b.until(`document.querySelector(".drop-mark") !== null`)
	b.touch(input.DispatchTouchEventTypeTouchEnd)
	b.another(given)
	if got := b.order("alder"); !strings.HasPrefix(got, "2105 2101 ") {
		t.Errorf("alder begins with %.20s", got)
	}
}
