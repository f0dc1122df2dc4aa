package desk_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/units"
)

// A docket tried says what the same docket says once it is kept.
func TestTryingIsLikeKeeping(t *testing.T) {
	d, s := demoDesk(t)
	for i := range s.Jobs[:6] {
		j := s.Jobs[i]
		got, err := d.Try(signed(t), j.Name, j)
		if err != nil {
			t.Fatal(err)
		}
		want := ask(t, d, j.Name, "")
		if len(got.Faults) > 0 || got.No != nil || got.Folded == nil || len(got.Answers) != len(want) {
			t.Fatalf("job %s: %v, %v, %d answers", j.Name, got.Faults, got.No, len(got.Answers))
		}
		for k := range want {
			if diff := cmp.Diff(want[k].Lines, got.Answers[k].Lines); diff != "" || want[k].Folder != got.Answers[k].Folder {
				t.Errorf("job %s on %s (kept -, tried +):\n%s", j.Name, want[k].Folder.Name, diff)
			}
		}
	}
}

func TestTryTellsFaultsByField(t *testing.T) {
	d, s := demoDesk(t)
	good := s.Jobs[0]
	none, _ := s.Job("2124") // which nobody can fold
	for name, c := range map[string]struct {
		was     string
		change  func(j *job.Job)
		field   string // of the first fault
		folded  bool
		answers bool
	}{
		"all is well":     {good.Name, func(*job.Job) {}, "", true, true},
		"name taken":      {"", func(*job.Job) {}, "name", true, true},
		"no name yet":     {"", func(j *job.Job) { j.Name = "" }, "name", true, true},
		"due before":      {good.Name, func(j *job.Job) { j.Release = j.Due.Add(1) }, "due", true, true},
		"too long":        {good.Name, func(j *job.Job) { j.Sheet.Length = 20 * units.Metre }, "sheet", false, false},
		"no sheets":       {good.Name, func(j *job.Job) { j.Sheets = 0 }, "sheets", true, false},
		"no such fold":    {good.Name, func(j *job.Job) { j.Operations = []job.Operation{{Kind: "perforate", Target: job.OnFold, Fold: 9}} }, "operations[0]", true, false},
		"nobody folds it": {"", func(j *job.Job) { *j = *none; j.Name = "new" }, "", true, true},
	} {
		t.Run(name, func(t *testing.T) {
			j := good
			c.change(&j)
			got, err := d.Try(signed(t), c.was, j)
			if err != nil {
				t.Fatal(err)
			}
			fields := make([]string, 0, len(got.Faults))
			for _, f := range got.Faults {
				fields = append(fields, f.Field)
			}
			if c.field == "" != (len(fields) == 0) || c.field != "" && !slices.Contains(fields, c.field) {
				t.Errorf("faults %v, want one at %q", got.Faults, c.field)
			}
			if (got.Folded != nil) != c.folded || (len(got.Answers) > 0) != c.answers {
				t.Errorf("folded %v, %d answers", got.Folded != nil, len(got.Answers))
			}
			if no := name == "nobody folds it"; no != (len(fault.All(got.No)) > 0) {
				t.Errorf("no is %v", got.No)
			}
		})
	}
	if _, err := d.Try(signed(t), "21o1", good); len(fault.All(err)) != 1 {
		t.Errorf("in the place of a job that is not there: %v", err)
	}
	var nobody desk.Desk
	nobody.Store = held{shop: s}
	if _, err := nobody.Try(t.Context(), "", good); len(fault.All(err)) != 1 {
		t.Errorf("asked by nobody: %v", err)
	}
}

// A folder that could fold a job and has not the tools for it says so in place of minutes. A wheel of a kind that no shop has on
// its shelf lacks everywhere.
func TestToolsThatTheShopLacksAreAMiss(t *testing.T) {
	d, s := demoDesk(t)
	j := s.Jobs[0]
	j.Name, j.Operations = "new", []job.Operation{{Kind: "perforate", Spec: "99 tpi", Target: job.OnFold, Fold: 3}}
	got, err := d.Try(signed(t), "", j)
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Answers) != len(s.Folders) || got.No == nil {
		t.Fatalf("%d answers, %v", len(got.Answers), got.No)
	}
	for _, a := range got.Answers {
		if a.Miss == nil || a.Settings != nil || len(a.Miss.Whys) == 0 {
			t.Errorf("%s says it can, in %s", a.Folder.Name, a.Makeready)
		}
	}
}

// What a repeat would be is what it becomes.
func TestAgainIsTheRepeat(t *testing.T) {
	d := kept(t)
	again, err := d.Again(as(t, access.Viewer), "2101", desk.RepeatAsk{})
	if err != nil {
		t.Fatal(err)
	}
	made, err := d.Repeat(as(t, access.Lead), "2101", desk.RepeatAsk{})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(again, made.Value.(job.Job)); diff != "" {
		t.Errorf("told -, made +:\n%s", diff)
	}
	_, err = d.Again(as(t, access.Viewer), "21o1", desk.RepeatAsk{})
	wantFault(t, err, "unknown-name")
}
