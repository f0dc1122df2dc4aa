package browsertest

import (
	"testing"

	cdp "github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"foldwright/internal/access"
)

// typed puts a text into a field of the docket as fingers do.
func (b *tab) typed(selector, text string) {
	b.t.Helper()
	eval[any](b, `document.querySelector("`+selector+`").value = ""`)
	b.do(cdp.SendKeys(cdp.CSS(selector), text))
}

// Goal: jobs are found while one types, with and without a script, sorted, and opened; one sees what every folder says.
func TestJobsAreFoundAndCompared(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Viewer)
	b.visit("/jobs")
	b.look("jobs")
	b.visit("/jobs")
	b.do(cdp.KeyEvent("/"))
	b.until(`document.activeElement.id === "find"`)
	b.typed("#find", "song book section")
	b.until(`document.querySelectorAll(".jobs tbody tr").length === 4 && location.search.includes("find=song")`)
	eval[any](b, `document.querySelector("#find").value = ""`)
	eval[any](b, `document.querySelector("#folder").value = "rowan", document.querySelector("#folder").dispatchEvent(new Event("input", {bubbles: true}))`)
	b.until(`location.search.includes("folder=rowan")`)
	b.visit("/jobs?sort=-sheets&due=today")
	b.says(".jobs thead", "Sheets")
	b.visit("/jobs/2101")
	b.says("h1", "2101")
	b.says("#folders", "sheets/h, limited by")
	b.says("#folders", "cannot")
	b.says("#settings", "plate 1")
	b.look("job")
	b.press(`#folders a[href*="folder=birch"]`)
	b.says("#settings h2", "On birch")
	if got := eval[string](b, `fetch(document.querySelector('a[href*="card.pdf"][href*="Letter"]').href).then(async r => r.headers.get("Content-Type") + " " + (await r.text()).slice(0, 5))`); got != "application/pdf %PDF-" {
		t.Errorf("the card is %q", got)
	}
	if status := eval[int](b, `fetch("/jobs/new").then(r => r.status)`); status != 403 {
		t.Errorf("a viewer gets %d for the form of a new job, want 403", status)
	}
	if may := eval[bool](b, `document.querySelector('form[action^="/remove"], a[href*="/edit"], a[href*="like="]') !== null`); may {
		t.Error("a viewer is shown what only a lead may")
	}
}

// Goal: a new docket is drawn while it is typed, a wrong field has its fault beside it, and the finished one is kept.
func TestNewJobIsDrawnAsOneTypes(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.visit("/jobs")
	if _, err := cdp.RunResponse(b.ctx, cdp.KeyEvent("n")); err != nil {
		t.Fatal(err)
	}
	b.look("job-new")
	b.typed("#f-sheet", "860 x 610")
	b.typed("#f-stock", "offset 80")
	b.typed("#f-scheme", "F16")
	b.until(`document.querySelector(".offered button[value='F16-7']") !== null`)
	b.click(`.offered button[value="F16-7"]`)
	b.until(`document.querySelector("#job-live [data-dummy] svg") !== null && document.querySelector("#job-live .best") !== null`)
	b.says("#job-live", "16 pages")
	b.says("#job-live", "Still to come")
	b.until(`document.querySelector("[data-live-said]").textContent.includes("to make ready")`)
	b.typed("#f-sheets", "many")
	b.until(`document.querySelector("#f-sheets-fault") !== null`)
	b.axe("a docket with a fault, being typed")
	b.shoot("job-typing-1280-light.png")
	b.typed("#f-sheets", "9000")
	b.until(`document.querySelector("#f-sheets-fault") === null && document.querySelector("#job-live .best").textContent.includes("to run")`)
	b.do(cdp.SetValue(cdp.CSS("#op-fold"), "3"), cdp.SetValue(cdp.CSS("#op-spec"), "12 tpi"))
	b.press(`button[value="operation"]`)
	if got := eval[string](b, `document.querySelector('[name="operations[0]"]').value`); got != "perforate fold 3 with 12 tpi" {
		t.Errorf("the helper wrote %q", got)
	}
	b.look("job-typed")
	b.press(`button[value="check"]`)
	b.says("#form-faults", "Name")
	b.typed("#f-name", "3001")
	b.press(`.form-end button.main`)
	if at := b.at(); at != "/jobs/3001" {
		t.Fatalf("after saving one is at %s: %s", at, b.text("main"))
	}
	b.says(".flash", "3001 is saved.")
}

// Goal: a docket that no folder can fold says how near each comes; one that somebody else changed meanwhile is not lost.
func TestEditJobWithConflict(t *testing.T) {
	a := demoApp(t)
	b, other := a.openAs(access.Lead), a.openAs(access.Lead)
	b.visit("/jobs/2108/edit")
	other.visit("/jobs/2108/edit")
	other.typed("#f-sheets", "11000")
	other.press(`.form-end button.main`)
	b.typed("#f-sheet", "2400 x 210")
	b.until(`document.querySelector("#job-live").textContent.includes("No folder can fold it")`)
	b.look("job-nowhere")
	b.typed("#f-sheet", "600 x 210")
	if status := b.press(`.form-end button.main`); status != 409 {
		t.Errorf("the conflict gives %d, want 409", status)
	}
	b.says(".notice", "Somebody else changed it first")
	b.look("job-conflict")
	b.click(`[name="take:sheets"][value="theirs"]`)
	b.press(`.form-end button.main`)
	b.says("main", "600 × 210 mm")
	b.says("main", "11,000")
	b.says("main", "1 field, changed")
}

// Goal: an earlier job is repeated in two clicks, and a removed one comes back in one.
func TestRepeatAndRemove(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.visit("/jobs?find=2101")
	b.press(`.jobs a[href="/jobs/new?like=2101"]`)
	b.look("job-repeat")
	b.press(`.form-end button.main`)
	if at := b.at(); at != "/jobs/2101-2" {
		t.Fatalf("after repeating one is at %s", at)
	}
	b.says("main", "perforate fold 2 with 12 tpi")
	b.says("main", "13,000")
	b.press(`form[action="/remove/job"] button`)
	b.says(".flash", "2101-2 is removed.")
	if status := b.visit("/jobs/2101-2"); status != 404 {
		t.Errorf("a removed job gives %d, want 404", status)
	}
	b.visit("/jobs/2103")
	other := a.openAs(access.Lead)
	other.visit("/jobs/2103")
	other.click(`.menu:has(form[action$="/pin"]) > summary`)
	other.press(`form[action$="/pin"] button`)
	if status := b.press(`form[action="/remove/job"] button`); status != 409 {
		t.Errorf("a job that somebody changed is removed unseen: %d, want 409", status)
	}
	b.visit("/jobs/2102")
	b.press(`form[action="/remove/job"] button`)
	if status := b.press(`.flash form button`); status != 200 {
		t.Errorf("undo gives %d: %s", status, b.text("main"))
	}
	b.visit("/jobs/2102")
	b.says("h1", "2102")
	b.click(`.menu:has(form[action$="/pin"]) > summary`)
	b.do(cdp.SetValue(cdp.CSS("#hold-folder"), "birch"))
	b.press(`form[action$="/pin"] button`)
	b.says(".job-tags", "held on birch")
}

// Goal: a list of 400 jobs is found through as one types; nothing of it scrolls sideways.
func TestFourHundredJobs(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	status := eval[string](b, `(async () => { for (let i = 0; i < 340; i++) { const r = await fetch("/api/v1/jobs/2101/repeat", {method: "POST", headers: {"Content-Type": "application/json", "Idempotency-Key": "k" + i}, body: JSON.stringify({name: "r" + i})}); if (r.status !== 201) return i + ": " + r.status + " " + await r.text(); } return "" })()`)
	if status != "" {
		t.Fatal(status)
	}
	b.visit("/jobs")
	if n := eval[int](b, `document.querySelectorAll(".jobs tbody tr").length`); n < 390 {
		t.Fatalf("the list has %d rows", n)
	}
	b.do(cdp.SendKeys(cdp.CSS("#find"), "r339"))
	b.until(`document.querySelectorAll(".jobs tbody tr").length === 1`)
	b.do(cdp.KeyEvent(kb.Escape))
	took := eval[float64](b, `(async () => { const at = performance.now(); await (await fetch("/jobs?find=tide", {headers: {"HX-Request": "true"}})).text(); return performance.now() - at })()`)
	t.Logf("a search among 400 jobs: %.0f ms", took)
}

// Goal: the longer words of other languages, and inches, find room, too.
func TestJobsInGermanAndInches(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.visit("/account")
	b.do(cdp.SetValue(cdp.CSS(`select[name="lang"]`), "de"), cdp.SetValue(cdp.CSS(`#lengths`), "inch"))
	b.press(`form:has(select[name="lang"]) button`)
	for _, page := range [][2]string{{"/jobs/2106", "job-de"}, {"/floor/jobs/2106", "floor-de"}, {"/jobs/2106/edit", "job-edit-de"}, {"/jobs?find=2106", "jobs-de"}} {
		b.visit(page[0])
		eval[any](b, `document.querySelectorAll("main details:not(.menu)").forEach(d => { d.open = true })`)
		b.look(page[1])
	}
}
