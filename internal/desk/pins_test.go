package desk_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/shop"
)

// Goal: pins make room for one another, as cards in a row do. Method: random pins beside a list from which a card is taken and
// into which it is put; what the shop refuses must not have changed the list.
func TestPinsMakeRoom(t *testing.T) {
	d := kept(t)
	ctx := as(t, access.Lead)
	for _, name := range shopNow(t, d).JobNames() {
		if _, err := d.Unpin(ctx, name); err != nil {
			t.Fatal(err)
		}
	}
	names := shopNow(t, d).JobNames()[:6]
	row := []string{}
	rapid.Check(t, func(rt *rapid.T) {
		name := rapid.SampledFrom(names).Draw(rt, "job")
		next := slices.DeleteFunc(slices.Clone(row), func(n string) bool { return n == name })
		at := rapid.IntRange(0, len(next)+2).Draw(rt, "place")
		_, err := d.Pin(ctx, name, job.Pin{Folder: "birch", Position: at})
		switch {
		case at > len(next)+1:
			if len(fault.All(err)) == 0 {
				rt.Fatalf("a place beyond the row was not refused: %v", err)
			}
			return
		case err != nil:
			if len(fault.All(err)) == 0 {
				rt.Fatal(err)
			}
			return // such as a job that waits for one behind it
		case at > 0:
			next = slices.Insert(next, at-1, name)
		}
		if row = next; !slices.Equal(row, heldRow(shopNow(t, d), "birch")) {
			rt.Fatalf("held on birch: %v, want %v", heldRow(shopNow(t, d), "birch"), row)
		}
	})
}

// heldRow lists the jobs with a place on a folder.
func heldRow(s *shop.Shop, folder string) []string {
	row := []string{}
	for place := 1; ; place++ {
		i := slices.IndexFunc(s.Jobs, func(j job.Job) bool { return j.Pin.Folder == folder && j.Pin.Position == place })
		if i < 0 {
			return row
		}
		row = append(row, s.Jobs[i].Name)
	}
}

func TestPinFaults(t *testing.T) {
	d := kept(t)
	for name, c := range map[string]struct {
		role access.Role
		job  string
		pin  job.Pin
		want string
	}{
		"operator":       {access.Operator, "2101", job.Pin{Folder: "birch"}, "not-allowed"},
		"no such job":    {access.Lead, "21o1", job.Pin{Folder: "birch"}, "unknown-name"},
		"no such folder": {access.Lead, "2101", job.Pin{Folder: "brich"}, "unknown-name"},
		"done":           {access.Lead, "2095", job.Pin{Folder: "birch"}, "job-done"},
		"gap":            {access.Lead, "2101", job.Pin{Folder: "birch", Position: 40}, "pin"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := d.Pin(as(t, c.role), c.job, c.pin)
			wantFault(t, err, c.want)
		})
	}
}
