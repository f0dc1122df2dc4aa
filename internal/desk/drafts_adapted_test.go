package desk_test

import (
	"slices"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/job"
)

// Goal: a draft outlives what the floor and others do: when a job of it was started or pinned elsewhere, it is brought up to
// date instead of being refused, leaves nothing out, and says so.
func TestDraftsAreBroughtUpToDate(t *testing.T) {
	d, lead := kept(t), as(t, access.Lead)
	made, err := d.Arrange(lead, desk.GivenDraft, "2105", "alder", 1)
	if err != nil {
		t.Fatal(err)
	}
	if made, err = d.Draft(lead, made.ID); err != nil || made.Adapted {
		t.Fatalf("a draft that still goes is adapted: %v", err)
	}
	if _, err := d.Start(lead, "2101", "alder"); err != nil {
		t.Fatal(err)
	}
	if _, err := d.Pin(lead, "2106", job.Pin{Folder: "birch", Position: 1}); err != nil {
		t.Fatal(err)
	}
	now, err := d.Draft(lead, made.ID)
	if err != nil {
		t.Fatal(err)
	}
	if !now.Adapted {
		t.Error("it does not say that it was brought up to date")
	}
	if on, at := now.Order.Find("2101"); on != "alder" || at != 1 {
		t.Errorf("what runs on alder stands at %s %d", on, at)
	}
	if on, at := now.Order.Find("2106"); on != "birch" || at != 1 {
		t.Errorf("what is pinned to birch stands at %s %d", on, at)
	}
	count := func(dr *desk.Draft) (names []string) {
		for _, lane := range dr.Order {
			names = append(names, lane.Jobs...)
		}
		slices.Sort(names)
		return names
	}
	if got, want := count(now), count(made); !slices.Equal(got, want) {
		t.Errorf("jobs of the draft were\n%v, are\n%v", want, got)
	}
}
