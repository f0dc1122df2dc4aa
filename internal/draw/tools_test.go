package draw

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// The pages are judged by programs that know nothing of this one: poppler renders them, qpdf checks the file, zbar reads
// the codes. All three are general-purpose and come with the system (make test installs them).

// program finds one of them. A developer may do without; where the tests decide (CI), it must be there.
func program(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("CI") == "" {
		t.Skipf("%s is not installed (make test-tools)", name)
	}
	if err != nil {
		t.Fatalf("%s is not installed (make test-tools)", name)
	}
	return path
}

// call runs one and returns what it says.
func call(t testing.TB, name string, args ...string) string {
	t.Helper()
	var out, complaints bytes.Buffer
	cmd := exec.Command(program(t, name), args...)
	cmd.Stdout, cmd.Stderr = &out, &complaints
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %v: %v\n%s%s", name, args, err, &out, &complaints)
	}
	return out.String()
}

// written writes pages as a PDF into a temporary file.
func written(t testing.TB, pages []*Picture) (path string, size int) {
	t.Helper()
	data, err := PDF(Document{Title: pages[0].Title, Lang: "en", Created: time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)}, pages)
	if err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "pages.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path, len(data)
}

// rastered renders a page (from 1) of a PDF in greys and returns the file of the image, a binary PGM.
func rastered(t testing.TB, pdf string, page, dpi int) string {
	t.Helper()
	root := filepath.Join(t.TempDir(), "page")
	n := fmt.Sprint(page)
	call(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-f", n, "-l", n, "-gray", "-singlefile", pdf, root)
	return root + ".pgm"
}

// greys is an image, row by row; 0 is black.
type greys struct {
	width, height int
	levels        []byte
}

func (g greys) row(y int) []byte { return g.levels[y*g.width : (y+1)*g.width] }

// pixels reads a binary PGM with levels up to 255.
func pixels(t testing.TB, file string) (g greys) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := fmt.Sscanf(string(data[:min(len(data), 40)]), "P5\n%d %d\n255\n", &g.width, &g.height); err != nil {
		t.Fatalf("%s is no PGM: %v", file, err)
	}
	g.levels = data[len(data)-g.width*g.height:]
	return g
}
