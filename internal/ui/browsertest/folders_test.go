package browsertest

import (
	"testing"

	"foldwright/internal/access"
)

// An admin looks at the folders, opens one, is told why a plate cannot reach less than nothing, gives it another reach and
// takes that back.
func TestFoldersAreLookedAtAndEdited(t *testing.T) {
	a := demoApp(t)
	b := a.openAs(access.Admin)
	b.visit("/folders")
	b.says("main", "alder")
	b.look("folders")
	b.press(`main a[href="/folders/alder"]`)
	b.says("h1", "alder")
	b.look("folder")
	b.press(`main a[href^="/edit/folder"]`)
	plate := `input[name="units[0].plates[0]"]`
	b.fill(plate, "620 to 100")
	if status := b.press("main form button.main"); status != 422 {
		t.Errorf("a plate from 620 to 100 gives %d, want 422", status)
	}
	b.says("main", "620")
	b.look("folder-edit")
	b.fill(plate, "110 to 600")
	b.press("main form button.main")
	b.says("main", "110–600 mm")
	b.press(`form[action="/undo"] button`)
	b.visit("/folders/alder")
	b.says("main", "100–620 mm")
}

// A viewer sees folders and is not let into their forms.
func TestViewersDoNotEditFolders(t *testing.T) {
	b := demoApp(t).openAs(access.Viewer)
	b.visit("/folders/birch")
	b.says("h1", "birch")
	if status := b.visit("/edit/folder?name=birch"); status != 403 {
		t.Errorf("the form gives a viewer %d, want 403", status)
	}
}
