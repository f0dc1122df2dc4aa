package browsertest

import (
	"testing"

	cdp "github.com/chromedp/chromedp"

	"foldwright/internal/access"
)

// Goal: at the folder one reads what to set, tells of make-ready, first good sheet and end with one button each, and what really
// stood where; the shop learns that the job runs and is done; somebody else can go on with the record, and whoever comes
// second is told.
func TestFloorRecord(t *testing.T) {
	a := demoApp(t)
	b, other := a.openAs(access.Operator), a.openAs(access.Lead)
	b.visit("/floor/jobs/2101")
	b.says("h1", "2101")
	b.says("main", "plate 1")
	b.says("main", "isolate and lock it out")
	b.look("floor")
	b.press(`form[action$="/begin"] button`)
	b.says(".flash", "The make-ready of 2101 has begun.")
	b.click(`#note [data-steps="was-1"][data-by="0.1"]`)
	b.click(`#note [data-steps="was-1"][data-by="0.1"]`)
	b.until(`document.querySelector("#was-1").classList.contains("differs")`)
	b.do(cdp.SendKeys(cdp.CSS("#disturbed"), "paper came late"))
	b.look("floor-made-ready")

	other.visit("/floor/jobs/2101")
	other.says("#do", "operator")
	b.press(`#note button.big`)
	b.says(".flash", "Noted.")
	if status := other.press(`form[action$="/good"] button`); status != 409 {
		t.Errorf("an older version of the record is taken with %d, want 409", status)
	}
	other.says(".notice", "operator told of this record meanwhile")
	other.look("floor-stale")
	other.press(`form[action$="/good"] button`)
	other.says(".flash", "2101 runs on alder.")
	other.says(".floor-state", "runs")

	b.visit("/floor/jobs/2101")
	b.typed("#sheets", "12,950")
	b.look("floor-runs")
	b.press(`form[action$="/end"] button`)
	b.says(".flash", "2101 is finished on alder.")
	b.says(".floor-state", "done")
	b.look("floor-done")

	b.visit("/records")
	b.says("main", "12,950")
	b.says("main", "paper came late")
	b.look("records")
	b.press(`.records a[href^="/records/"]`)
	b.says("main", "plate 1")
	b.look("record")
	b.fill("#r-end", "yesterday")
	if status := b.press(`.form-end button.main`); status != 422 {
		t.Errorf("a wrong time gives %d, want 422", status)
	}
	b.says("#r-end-fault", "is no time")
	b.look("record-fault")
	b.typed("#r-end", "2026-03-02 09:10")
	b.press(`.form-end button.main`)
	b.says(".flash", "The record of 2101 is kept.")
	b.visit("/records?folder=birch")
	b.says("main", "No record fits.")
	b.visit("/jobs/2101")
	b.says("main", "paper came late")
	b.says("main", "2101 is finished on alder")
	b.says("main", "2101 runs on alder")
	b.look("job-done")
}

// Goal: who may only look sees the page of the floor without its buttons, and whatever is sent is refused.
func TestFloorRefusesViewers(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Viewer)
	b.visit("/floor/jobs/2102")
	b.says("h1", "2102")
	if may := eval[bool](b, `document.querySelector("main form") !== null`); may {
		t.Error("a viewer is shown buttons of the floor")
	}
	for _, path := range []string{"/floor/jobs/2102/begin", "/floor/jobs/2102/good", "/floor/jobs/2102/end", "/floor/jobs/2102/note", "/records/new"} {
		if status := eval[int](b, `fetch("`+path+`", {method: "POST"}).then(r => r.status)`); status != 403 {
			t.Errorf("a viewer gets %d for %s, want 403", status, path)
		}
	}
	b.visit("/records")
	b.look("records-none")
}
