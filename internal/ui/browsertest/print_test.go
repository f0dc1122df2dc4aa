package browsertest

import (
	"bytes"
	"os/exec"
	"strings"
	"testing"

	cdp "github.com/chromedp/chromedp"

	"foldwright/internal/access"
)

// A long list begins on the first page under its title, dark on white whatever the screen is, without what is pressed.
func TestListsPrint(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("there is no pdftotext")
	}
	a := demoApp(t)
	b := a.openAs(access.Lead)
	b.visit("/jobs")
	data, err := cdp.Run(b.ctx, cdp.PrintToPDF())
	b.must(err)
	read := exec.Command("pdftotext", "-l", "1", "-", "-")
	read.Stdin = bytes.NewReader(data)
	text, err := read.Output()
	b.must(err)
	for word, want := range map[string]bool{"2101": true, "Customer": true, "Repeat": false, "Log out": false} {
		if got := strings.Contains(string(text), word); got != want {
			t.Errorf("the first page says %q: %v, want %v\n%s", word, got, want, text)
		}
	}
}
