package desk_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/access"
	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/job"
	"foldwright/internal/tooling"
)

// Goal: after a job is finished, its folder stands as the job left it. Method: many jobs one after another are started and
// finished, each where it takes least; a repeat of it there needs nothing but the change of the docket, which the
// changeover room works out by itself. Every other job is finished without having been started.
func TestWhatIsFinishedStandsThere(t *testing.T) {
	d := kept(t)
	op := as(t, access.Operator)
	first := shopNow(t, d)
	modes := map[changeover.Mode]bool{}
	for i, name := range first.JobNames()[:30] {
		answers, err := d.Settings(signed(t), name, "")
		if err != nil {
			continue // none can
		}
		folder := answers[0].Folder.Name
		for _, st := range answers[0].Stations {
			modes[st.Mode] = true
		}
		if j, _ := shopNow(t, d).Job(name); i%2 == 0 && len(j.After) == 0 {
			if _, err := d.Start(op, name, folder); err != nil {
				t.Fatal(err)
			}
			holdStarted(t, d, name, folder)
		}
		if _, err := d.Finish(op, name, folder); err != nil {
			t.Fatal(err)
		}
		holdFinished(t, d, name, folder)
	}
	if !modes[changeover.Built] && !modes[changeover.InFolder] || !modes[changeover.Swap] {
		t.Errorf("only %v happened: the test sees too little", modes)
	}
	if diff := cmp.Diff(allTools(first), allTools(shopNow(t, d))); diff != "" {
		t.Errorf("tools got lost:\n%s", diff)
	}
}

// holdFinished checks that a folder is set for a job that is done.
func holdFinished(t *testing.T, d *desk.Desk, name, folder string) {
	t.Helper()
	s := shopNow(t, d)
	if st, _ := s.State(folder); st.Job != name || slices.Contains(s.JobNames(), name) {
		t.Errorf("%s is set for %s, waiting are %v", folder, st.Job, s.JobNames())
	}
	again, err := d.Repeat(signed(t), name, desk.RepeatAsk{})
	if err != nil {
		t.Fatal(err)
	}
	if a := ask(t, d, again.Name, folder)[0]; a.Makeready != s.Standards.Docket {
		t.Errorf("a repeat of %s on %s takes %v, want only the docket's %v: %v", name, folder, a.Makeready, s.Standards.Docket, a.Lines)
	}
	if err := d.Remove(signed(t), again.Tag); err != nil {
		t.Fatal(err)
	}
}

// holdStarted checks that a job is first on its folder and that what it wants stands there.
func holdStarted(t *testing.T, d *desk.Desk, name, folder string) {
	t.Helper()
	s := shopNow(t, d)
	j, _ := s.Job(name)
	if j.Pin != (job.Pin{Folder: folder, Position: 1, Started: true}) {
		t.Errorf("job %s is pinned %+v", name, j.Pin)
	}
	for _, st := range ask(t, d, name, folder)[0].Stations {
		if st.Mode != changeover.Keep {
			t.Errorf("job %s has started, and %s is %s with %s", name, st.Name, st.Mode, st.Set)
		}
	}
}

// The first job of alder in the demo's day is worked with sets; each that it used tells so and has run the metres.
func TestFinishedJobsAreCountedToTheirSets(t *testing.T) {
	d := kept(t)
	before := shopNow(t, d)
	a := ask(t, d, "2101", "birch")[0]
	if _, err := d.Finish(as(t, access.Operator), "2101", "birch"); err != nil {
		t.Fatal(err)
	}
	s, used := shopNow(t, d), 0
	for i, set := range s.Sets {
		served := slices.Contains(set.Served, "2101")
		if served != (set.MetresK > before.Sets[i].MetresK) {
			t.Errorf("%s served: %v, ran %v thousand metres, before %v", set.Label, served, set.MetresK, before.Sets[i].MetresK)
		}
		if !served {
			continue
		}
		used++
		if set.Place.Folder != "birch" {
			t.Errorf("%s served and stands at %v", set.Label, set.Place)
		}
		_, unit, _ := a.Folder.Station(set.Place.Station)
		metres := float64(a.Job.Sheets) * a.Settings.Units[unit-1].Out.Length.MM() / 1e6
		if off := set.MetresK - before.Sets[i].MetresK - metres; off < -1e-6 || off > 1e-6 {
			t.Errorf("%s ran %v thousand metres more, want %v", set.Label, set.MetresK-before.Sets[i].MetresK, metres)
		}
	}
	if used == 0 {
		t.Error("no set served a job that is perforated")
	}
	done, _ := s.Job("2101")
	if done.Given != "birch" || done.Pin != (job.Pin{}) {
		t.Errorf("done is %+v", done)
	}
}

func TestFloorFaults(t *testing.T) {
	d := kept(t)
	op := as(t, access.Operator)
	if _, err := d.Start(op, "2101", "birch"); err != nil {
		t.Fatal(err)
	}
	before := shopNow(t, d)
	for name, c := range map[string]struct {
		do   func() error
		want string
	}{
		"viewer":           {func() error { _, err := d.Start(as(t, access.Viewer), "2102", "alder"); return err }, "not-allowed"},
		"busy":             {func() error { _, err := d.Start(op, "2102", "birch"); return err }, "folder-busy"},
		"finish behind":    {func() error { _, err := d.Finish(op, "2102", "birch"); return err }, "folder-busy"},
		"twice":            {func() error { _, err := d.Start(op, "2101", "birch"); return err }, "folder-busy"},
		"on another":       {func() error { _, err := d.Finish(op, "2101", "alder"); return err }, "job-folder"},
		"cannot":           {func() error { _, err := d.Start(op, "2103", "rowan"); return err }, "job-folder"},
		"nobody can":       {func() error { _, err := d.Start(op, "2124", "alder"); return err }, "job-folder"},
		"no such job":      {func() error { _, err := d.Start(op, "21o1", "alder"); return err }, "unknown-name"},
		"no such folder":   {func() error { _, err := d.Start(op, "2102", "adler"); return err }, "unknown-name"},
		"done":             {func() error { _, err := d.Finish(op, "2095", "alder"); return err }, "job-done"},
		"pinned before it": {func() error { _, err := d.Pin(signed(t), "2102", job.Pin{Folder: "birch", Position: 1}); return err }, "pin"},
	} {
		t.Run(name, func(t *testing.T) { wantFault(t, c.do(), c.want) })
	}
	if diff := cmp.Diff(lean(before), lean(shopNow(t, d))); diff != "" {
		t.Errorf("what was refused changed the shop:\n%s", diff)
	}
}

// All that a report changes is one change, under the name of who made it, and can be taken back as one.
func TestAReportIsOneChange(t *testing.T) {
	d := kept(t)
	before := shopNow(t, d)
	if _, err := d.Start(as(t, access.Operator), "2101", "birch"); err != nil {
		t.Fatal(err)
	}
	now, err := d.Snapshot(signed(t))
	if err != nil {
		t.Fatal(err)
	}
	if now.Revision != 2 {
		t.Fatalf("the report took %d changes", now.Revision-1)
	}
	if _, err := d.Undo(as(t, access.Operator), now.Revision); err != nil { // who reported it by mistake
		t.Fatal(err)
	}
	after := shopNow(t, d)
	if diff := cmp.Diff(lean(before), lean(after)); diff != "" {
		t.Errorf("not as it was:\n%s", diff)
	}
	if got, want := placeOf(t, after, "W-02"), (tooling.Place{Folder: "birch", Station: "1A"}); got != want {
		t.Errorf("W-02 is at %v", got)
	}
}
