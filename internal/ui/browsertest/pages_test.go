package browsertest

import (
	"os"
	"path/filepath"
	"testing"

	cdp "github.com/chromedp/chromedp"

	"foldwright/internal/access"
)

// shown are the pages that the README shows, as an office screen first sees them.
var shown = []struct {
	name, path string
	role       access.Role
	width      int64
}{
	{"day", "/day", access.Lead, 1280},
	{"jobs", "/jobs", access.Lead, 1280},
	{"job", "/jobs/2101", access.Lead, 1280},
	{"rack", "/rack", access.Lead, 1280},
	{"set", "/rack/W-04?job=2102", access.Operator, 1280},
	{"folder", "/folders/alder", access.Admin, 1280},
	{"floor", "/floor/jobs/2101", access.Operator, 800},
	{"records", "/records", access.Viewer, 1280},
	{"admin", "/admin", access.Admin, 1280},
	{"trail", "/admin/trail", access.Admin, 1280},
}

// TestPagesForTheReadme leaves the pictures of docs/pages, where FOLDWRIGHT_PAGES says; make pages does that. Otherwise it only
// sees that the pages are there.
func TestPagesForTheReadme(t *testing.T) {
	a := demoApp(t)
	tabs := map[access.Role]*tab{}
	for _, p := range shown {
		b := tabs[p.role]
		if b == nil {
			b = a.openAs(p.role)
			tabs[p.role] = b
		}
		b.do(cdp.EmulateViewport(p.width, 900))
		if status := b.visit(p.path); status != 200 {
			t.Errorf("%s gives %d", p.path, status)
		}
		dir := os.Getenv("FOLDWRIGHT_PAGES")
		if dir == "" {
			continue
		}
		data, err := cdp.Run(b.ctx, cdp.CaptureScreenshot())
		b.must(err)
		b.must(os.MkdirAll(dir, 0o750))
		b.must(os.WriteFile(filepath.Join(dir, p.name+".png"), data, 0o600))
	}
}
