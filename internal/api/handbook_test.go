package api_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/internal/access"
)

// The examples of docs/api.md work as they stand there, one after another, in a shell.
func TestExamplesOfTheHandbook(t *testing.T) {
	if _, err := exec.LookPath("curl"); err != nil {
		t.Skip("no curl here")
	}
	text, err := os.ReadFile(filepath.Join("..", "..", "docs", "api.md"))
	if err != nil {
		t.Fatal(err)
	}
	d, dir := open(t), t.TempDir()
	parts := strings.Split(string(text), "```sh\n")[1:]
	if len(parts) != 5 {
		t.Fatalf("%d examples", len(parts))
	}
	want := []string{`"folder":"birch"`, `"name":"4711"`, `"sheets":6500`, "event: done", ""}
	for i, part := range parts {
		script, _, _ := strings.Cut(part, "```")
		run := exec.CommandContext(t.Context(), "sh", "-eu", "-c", script)
		run.Dir, run.Env = dir, append(os.Environ(), "ADDRESS="+d.server.URL, "TOKEN="+d.tokens[access.Lead], "no_proxy=127.0.0.1", "NO_PROXY=127.0.0.1")
		out, err := run.CombinedOutput()
		if err != nil || !strings.Contains(string(out), want[i]) {
			t.Errorf("example %d: %v: %.600s", i+1, err, out)
		}
	}
	if card, err := os.ReadFile(filepath.Join(dir, "card.pdf")); err != nil || !strings.HasPrefix(string(card), "%PDF") {
		t.Errorf("the card is %.20q, %v", card, err)
	}
}
