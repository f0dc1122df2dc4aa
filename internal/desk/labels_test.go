package desk_test

import (
	"slices"
	"testing"

	"foldwright/internal/desk"
)

// A label names the waiting jobs that the rack answers for them, and what the set served before.
func TestLabelsNameTheJobsASetServes(t *testing.T) {
	d, s := demoDesk(t)
	ctx := signed(t)
	labels, err := d.Labels(ctx, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(labels) != len(s.Sets) {
		t.Fatalf("%d labels for %d sets", len(labels), len(s.Sets))
	}
	named := 0
	for _, l := range labels {
		for _, served := range l.Set.Served {
			if !slices.Contains(l.Jobs, served) {
				t.Errorf("%s served %s, and its label %v does not say so", l.Set.Label, served, l.Jobs)
			}
		}
		named += len(l.Jobs)
	}
	for i := range s.Jobs {
		answers, _ := d.Settings(ctx, s.Jobs[i].Name, "") // a job no folder can fold has answers too
		for _, a := range answers {
			for _, st := range a.Stations {
				for _, serving := range st.Serves {
					k := slices.IndexFunc(labels, func(l desk.Labelled) bool { return l.Set.Label == serving.Set.Label })
					if !slices.Contains(labels[k].Jobs, s.Jobs[i].Name) {
						t.Errorf("%s serves %s on %s, and its label %v does not say so", serving.Set.Label, s.Jobs[i].Name, a.Folder.Name, labels[k].Jobs)
					}
				}
			}
		}
	}
	if named == 0 {
		t.Error("no label names a job")
	}
}
