package plan_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"foldwright/internal/exchange"
	"foldwright/internal/plan"
)

// disturbed are shops in which something has come between.
func disturbed(t testing.TB) map[string][]byte {
	file := string(read(t, "testdata/workshop.yaml"))
	with := func(pairs ...string) []byte {
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(file, pairs[i]) {
				t.Fatalf("the workshop has no %q", pairs[i])
			}
		}
		return []byte(strings.NewReplacer(pairs...).Replace(file))
	}
	const elder, larch, bench = "guides: {1: 100, 3: 80}\n", "bench:\n", "{name: bench, calendar: day}"
	return map[string][]byte{
		"folder down while a job runs":  with(elder, elder+"    down: 2026-03-27 06:30 to 11:00\n"),
		"folder down across days":       with(elder, elder+"    down: [2026-03-27 10:00 to 2026-03-30 09:30, 2026-03-30 09:00 to 2026-03-30 12:00]\n"),
		"folder down of which no state": with(larch, "  - folder: larch\n    down: [2026-03-26 06:00 to 2026-03-28 01:00]\n\n"+larch),
		"bench person away":             with(bench, "{name: bench, calendar: day, away: [2026-03-27 06:00 to 2026-03-31 06:00]}"),
		"everybody away":                with(bench, "{name: bench, calendar: day, away: 2026-03-26 06:00 to 2026-04-27 06:00}", "{name: morning, calendar: half day}", "{name: morning, calendar: half day, away: 2026-03-26 06:00 to 2026-04-27 06:00}"),
		"a rush job":                    with("  - {name: \"113\",", "  - {name: rush, sheet: 420 x 297, stock: offset 90, fold: zigzag 4, sheets: 1000, due: 2026-03-27 09:00, weight: 20}\n  - {name: \"113\","),
	}
}

// Goal: a plan after a disturbance keeps to it: nobody works where a folder is down or a person away. Method: the audit
// reads such times as exceptions of calendars, not as the shop does.
func TestDisturbancesAreHonoured(t *testing.T) {
	for name, file := range disturbed(t) {
		t.Run(name, func(t *testing.T) {
			calm := string(planned(t, read(t, "testdata/workshop.yaml"), plan.Options{Seed: 1, Iterations: 800}))
			out := planned(t, file, plan.Options{Seed: 1, Iterations: 800})
			for _, objection := range audit(file, out) {
				t.Error(objection)
			}
			if string(out) == calm {
				t.Error("the plan is that of a calm day")
			}
		})
	}
}

// Goal: the audit notices when a down time is not kept. Method: the plan of the calm day is held to the disturbed shop.
func TestAuditNoticesADownTime(t *testing.T) {
	calm := planned(t, read(t, "testdata/workshop.yaml"), plan.Options{Seed: 1, Iterations: 800})
	for _, name := range []string{"folder down while a job runs", "folder down across days", "folder down of which no state"} {
		if len(audit(disturbed(t)[name], calm)) == 0 {
			t.Error(name + ": the audit did not notice")
		}
	}
}

// Goal: a job that has started keeps its place and its set-up when its folder goes down; the run goes on afterwards.
func TestStartedJobWaitsOutADownTime(t *testing.T) {
	p, s := prepared(t, disturbed(t)["folder down while a job runs"])
	day, err := p.Search(context.Background(), nil, plan.Options{Seed: 1, Iterations: 200})
	if err != nil {
		t.Fatal(err)
	}
	calm, _ := prepared(t, read(t, "testdata/workshop.yaml"))
	before, err := calm.Evaluate(calm.Given())
	if err != nil {
		t.Fatal(err)
	}
	is, was := day.Folders[0].Tasks[0], before.Folders[0].Tasks[0]
	// Down from 06:30 to 11:00; both shifts have a break, here from 09:00 to 09:15 in between, so 4 h 15 of work are lost.
	lost := 4*time.Hour + 15*time.Minute
	cal, _ := s.Calendar("two shifts")
	end, ok := cal.Add(was.RunEnd, lost)
	if is.Job != "101" || is.Makeready != 0 || !is.RunStart.Equal(s.Now) || !ok || !is.RunEnd.Equal(end) {
		t.Errorf("%s starts %v, ends %v; without the down time it ends %v, so %v is due", is.Job, is.RunStart, is.RunEnd, was.RunEnd, end)
	}
}

// Goal: a down time that ends before it begins is refused with its place.
func TestAbsencesAreChecked(t *testing.T) {
	file := string(read(t, "testdata/workshop.yaml"))
	for _, c := range []struct{ down, want string }{
		{"[2026-03-27 12:00 to 2026-03-27 10:00]", "present[0].down[0]: from 2026-03-27 12:00 to 2026-03-27 10:00 is no time; an end after the beginning [absence]"},
		{"2026-03-27 12:00", `present[0].down: "2026-03-27 12:00" is no time from and to; write two moments with to between them, such as 2026-03-02 10:00 to 2026-03-02 14:00 [moment]`},
		{"2026-03-27 12:00 to noon", `present[0].down: "noon" is no date and time`},
	} {
		_, err := exchange.ReadShop("f", []byte(strings.Replace(file, "guides: {1: 100, 3: 80}\n", fmt.Sprintf("guides: {1: 100, 3: 80}\n    down: %s\n", c.down), 1)))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v\nwant %s", c.down, err, c.want)
		}
	}
}
