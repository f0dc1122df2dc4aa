package browsertest

import (
	"testing"

	"foldwright/internal/access"
)

// An operator finds a set while typing, says that it was mounted in the place of another, sees that one in the slot it left,
// and takes it back.
func TestSetsAreFoundAndMoved(t *testing.T) {
	b := demoApp(t).openAs(access.Operator)
	b.visit("/rack")
	b.says("main", "N-01")
	b.look("rack")
	b.fill("#q", "W-07")
	b.until(`!document.querySelector("#rack-sets").textContent.includes("N-01")`)
	b.press(`#rack-sets a[href="/rack/W-07"]`)
	b.look("rack-set")
	slot := eval[string](b, `document.querySelector("#slot").value`)
	b.click(`input[value="birch/1A"]`)
	b.press(`form[action="/rack/W-07/move"] button`)
	b.says("main", "birch, station 1A")
	b.visit("/rack/W-02")
	b.says("main", "slot "+slot)
	b.visit("/rack/W-07")
	b.click(`input[value="bench"]`)
	b.press(`form[action="/rack/W-07/move"] button`)
	b.says("main", "on the bench")
	b.press(`form[action="/undo"] button`)
	b.visit("/rack/W-07")
	b.says("main", "birch, station 1A")
}

// The bench is shown how a set becomes what a job wants, and says that it is done; a lead retires a set and takes that back.
func TestSetsAreBuiltAndRetired(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.visit("/rack/W-07?job=2101")
	b.says("#build", "fit")
	b.look("rack-build")
	b.press(`form[action="/rack/W-07/build"] button`)
	b.says("main", "built for 2101")
	b.visit("/rack/W-07?job=2101")
	b.says("#build", "serves as it is")
	b.press(`form[action="/rack/W-07/retire"] button`)
	if status := b.visit("/rack/W-07"); status != 404 {
		t.Errorf("a retired set gives %d, want 404", status)
	}
	b.visit("/rack")
	b.says("main", "N-01")
}
