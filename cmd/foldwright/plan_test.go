package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"foldwright/internal/exchange"
	"foldwright/internal/plan"
)

const workshop = "../../internal/plan/testdata/workshop.yaml"

// foldwright runs the program.
func foldwright(t *testing.T, args ...string) (code int, out, err string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code = run(context.Background(), args, streams{out: &stdout, err: &stderr})
	return code, stdout.String(), stderr.String()
}

func TestPlanShowsTheDay(t *testing.T) {
	code, out, err := foldwright(t, "plan", "--shop", workshop, "--iterations", "200")
	if code != 0 || err != "" {
		t.Fatalf("exit code %d, stderr %q", code, err)
	}
	for _, part := range []string{
		"Workshop, from Fri 06:00", "order given", "make-ready", "waiting", "No order needs less than",
		"\nelder\n", "\nlarch\n", "  Section 1  ", "Tools: in = ", "Not in the plan", "it waits for 110, which no folder can run",
	} {
		if !strings.Contains(out, part) {
			t.Errorf("missing %q in\n%s", part, out)
		}
	}
	for i, line := range strings.Split(out, "\n") {
		if strings.HasSuffix(line, " ") || strings.Contains(line, "\x1b") {
			t.Errorf("line %d ends in space or is coloured: %q", i+1, line)
		}
	}
}

func TestPlanShowsTheLinesWhenWished(t *testing.T) {
	_, without, _ := foldwright(t, "plan", "--shop", workshop, "--iterations", "20")
	_, with, _ := foldwright(t, "plan", "--shop", workshop, "--iterations", "20", "--lines")
	if strings.Contains(without, "  docket: ") || !strings.Contains(with, "  docket: ") || !strings.Contains(with, "  guides: ") {
		t.Errorf("lines are told when not wished, or not told when wished:\n%s\n%s", without, with)
	}
}

func TestPlanJSONIsOneReadableValue(t *testing.T) {
	code, out, err := foldwright(t, "plan", "--shop", workshop, "--iterations", "50", "--seed", "3", "--json")
	if code != 0 || err != "" {
		t.Fatalf("exit code %d, stderr %q", code, err)
	}
	doc, readErr := exchange.ReadPlan([]byte(out))
	if readErr != nil {
		t.Fatal(readErr)
	}
	if doc.Search.Seed != 3 || doc.Search.Iterations < 50 || doc.Search.Seconds < 0 {
		t.Errorf("search: %+v", doc.Search)
	}
}

// Goal: wrong usage and wrong input end in exit code 2 and one clear line, never in a plan.
func TestPlanRefusesWhatItCannotUse(t *testing.T) {
	broken := filepath.Join(t.TempDir(), "broken.yaml")
	if err := os.WriteFile(broken, []byte("shop: [\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--iterations=-1"}, "--iterations is -1; it counts from 1"},
		{[]string{"--time", "0s"}, "--time is 0s; it must be more than nothing, such as 5s"},
		{[]string{"--time", "soon"}, "--time"},
		{[]string{"--shop", "nowhere.yaml"}, "nowhere.yaml"},
		{[]string{"--shop", broken}, "broken.yaml"},
	} {
		code, out, err := foldwright(t, append([]string{"plan"}, c.args...)...)
		if code != 2 || out != "" || !strings.Contains(err, c.says) {
			t.Errorf("%v: exit code %d, output %q, stderr %q", c.args, code, out, err)
		}
	}
}

// Goal: a search by time ends by time, and says how long it took.
func TestPlanByTimeEnds(t *testing.T) {
	code, out, err := foldwright(t, "plan", "--shop", workshop, "--time", "50ms", "--json")
	if code != 0 || err != "" {
		t.Fatalf("exit code %d, stderr %q", code, err)
	}
	doc, readErr := exchange.ReadPlan([]byte(out))
	if readErr != nil {
		t.Fatal(readErr)
	}
	if doc.Search.Seconds < 0.05 {
		t.Errorf("took %v s of 0.05", doc.Search.Seconds)
	}
}

func TestToolsInShort(t *testing.T) {
	got := toolsInShort([]plan.Station{
		{Station: "1A", Mode: "keep", Set: "a"},
		{Station: "1B", Mode: "shift", Set: "b"},
		{Station: "2A", Mode: "swap", Set: "c"},
		{Station: "2B", Mode: "built", Set: "d"},
		{Station: "3A", Mode: "in_folder", Set: "e"},
		{Station: "3B", Mode: "plain", Set: "f"},
	}).String()
	if want := "1B shift, 2A c in, 2B d built, 3A e fitted, 3B f plain"; got != want {
		t.Errorf("%q, should be %q", got, want)
	}
}

func TestHourTellsAnotherDay(t *testing.T) {
	monday := time.Date(2026, 3, 2, 21, 30, 0, 0, time.UTC)
	p := sheet{words: english(false)}
	if got := p.after(monday.Add(time.Hour), monday); got != "22:30" {
		t.Errorf("the same day: %q", got)
	}
	if got := p.after(monday.Add(9*time.Hour), monday); got != "Tue 06:30" {
		t.Errorf("the day after: %q", got)
	}
}

// Goal: what a plan says of moves, rescues, chances and the near future is said in the reader's language.
func TestPlanIsToldInOtherLanguages(t *testing.T) {
	english := []string{" saves ", "on time", "Near until", "days simulated", "what would help", "reserve", "Planned with", "Chances", "Pays:", "behind job", "least late"}
	file, err := os.ReadFile(workshop)
	if err != nil {
		t.Fatal(err)
	}
	hopeless := filepath.Join(t.TempDir(), "hopeless.yaml") // a job is due before anybody could fold it
	if err := os.WriteFile(hopeless, bytes.Replace(file, []byte("due: 2026-03-27 16:00"), []byte("due: 2026-03-27 06:30"), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	wishes := []string{"plan", "--shop", hopeless, "--iterations", "1", "--lines", "--chance", "200", "--percentile", "70", "--keep", "4h", "--lang"}
	_, plain, _ := foldwright(t, append(wishes, "en")...)
	for _, part := range english {
		if !strings.Contains(plain, part) {
			t.Errorf("in English nothing says %q; the test shows nothing of it", part)
		}
	}
	for _, lang := range []string{"de", "es", "fr"} {
		code, out, err := foldwright(t, append(wishes, lang)...)
		if code != 0 || err != "" {
			t.Fatalf("exit code %d, stderr %q", code, err)
		}
		for _, part := range english {
			if strings.Contains(out, part) && (lang != "fr" || part != "Chances") {
				t.Errorf("%s: %q is English", lang, part)
			}
		}
		if strings.Contains(out, "%!") {
			t.Errorf("%s: a place is filled wrongly:\n%s", lang, out)
		}
	}
}
