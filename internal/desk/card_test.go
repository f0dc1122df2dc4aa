package desk_test

import (
	"slices"
	"strings"
	"testing"

	"foldwright/internal/changeover"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/plan"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// Goal: what a card says of its tools is what really stands on the shafts then. Method: every card of the demo's day, beside
// a set whose tools are followed by hand through the builds and the fittings of the plan.
func TestCardsShowTheToolsThatStandThere(t *testing.T) {
	d, s := demoDesk(t)
	p, err := d.Plan(signed(t), plan.Options{Iterations: 20})
	if err != nil {
		t.Fatal(err)
	}
	cards, err := d.Cards(signed(t), p)
	if err != nil {
		t.Fatal(err)
	}
	stands := map[string][]tooling.Tool{}
	for _, set := range s.Sets {
		stands[set.Label] = set.Tools
	}
	builds := slices.Clone(p.Bench)
	for i, c := range cards {
		if i > 0 && c.Task.MakereadyStart.Before(cards[i-1].Task.MakereadyStart) {
			t.Errorf("card %s comes after %s, whose make-ready starts later", c.Job.Name, cards[i-1].Job.Name)
		}
		for len(builds) > 0 && !builds[0].End.After(c.Task.MakereadyStart) {
			stands[builds[0].Set], builds = builds[0].To, builds[1:]
		}
		holdCard(t, c, s.House.Tolerance, stands)
	}
}

// holdCard compares a card's tools with what stands on its sets, which it may fit anew.
func holdCard(t *testing.T, c *desk.Card, tolerance units.Length, stands map[string][]tooling.Tool) {
	t.Helper()
	for _, u := range c.Task.Settings.Units {
		for _, st := range u.Stations {
			i := slices.IndexFunc(c.Task.Stations, func(p plan.Station) bool { return p.Station == st.Name })
			if len(st.Tools) == 0 || i < 0 {
				continue
			}
			told := c.Task.Stations[i]
			if told.Mode == changeover.InFolder {
				stands[told.Set] = st.Pattern().Tools
			}
			have := stands[told.Set]
			if len(have) != len(st.Tools) {
				t.Errorf("job %s, %s: the card shows %d tools, %s carries %d", c.Job.Name, st.Name, len(st.Tools), told.Set, len(have))
				continue
			}
			for k, tool := range st.Tools {
				if off := tool.At - have[k].At; tool.Type != have[k].Type || max(off, -off) > tolerance/2 {
					t.Errorf("job %s, %s: the card shows %v, %s carries %v", c.Job.Name, st.Name, tool.Tool, told.Set, have[k])
				}
			}
		}
	}
}

// What the folder was set for before is the job before on its lane.
func TestCardsFollowTheLane(t *testing.T) {
	d, _ := demoDesk(t)
	p, err := d.Plan(signed(t), plan.Options{Iterations: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, lane := range p.Folders {
		for i, task := range lane.Tasks[1:] {
			if before := lane.Tasks[i]; task.Before != before.Settings || task.Before.Job != before.Job {
				t.Errorf("%s on %s comes after %s, its card says after %s", task.Job, lane.Name, before.Job, task.Before.Job)
			}
		}
	}
}

// A set is fetched from where it is: its slot, the folder it was on, the bench that built it.
func TestCardsTellWhereSetsAre(t *testing.T) {
	d, _ := demoDesk(t)
	c, err := d.Card(signed(t), "2101", "birch")
	if err != nil {
		t.Fatal(err)
	}
	for i, st := range c.Task.Stations {
		switch set, _ := c.Shop.Set(st.Set); {
		case set == nil || set.Place.Station == st.Station && set.Place.Folder == "birch":
			if c.Places[i] != (tooling.Place{}) {
				t.Errorf("%s stands there already, and is fetched from %v", st.Station, c.Places[i])
			}
		case c.Places[i] != set.Place:
			t.Errorf("%s is fetched from %v, it is at %v", st.Set, c.Places[i], set.Place)
		}
	}
	if c.Planned || c.Task.Job != "2101" || c.Folder.Name != "birch" {
		t.Errorf("the card is of %s on %s, planned %v", c.Task.Job, c.Folder.Name, c.Planned)
	}
}

// Worked by hand: W-07 carries one score at 410; job 2101 wants one perforation at 410 on that shaft of birch, so the
// score comes off and a perforation goes on.
func TestBuildStepByStep(t *testing.T) {
	d, s := demoDesk(t)
	b, err := d.Build(signed(t), "W-07", "2101", "birch", "")
	if err != nil {
		t.Fatal(err)
	}
	want := []tooling.Change{
		{Do: tooling.Removing, Type: tooling.Type{Kind: tooling.Score, Spec: "0.7 mm"}, From: 410 * units.Millimetre},
		{Do: tooling.Adding, Type: tooling.Type{Kind: tooling.Perforate, Spec: "12 tpi"}, To: 410 * units.Millimetre},
	}
	if !slices.Equal(b.Steps, want) {
		t.Errorf("steps %v, want %v", b.Steps, want)
	}
	cost := s.Standards.AtBench
	if sum := cost.Start + cost.Remove + cost.Add; b.Work != sum || b.Station != "1A" {
		t.Errorf("%v of work for %s, want %v for 1A", b.Work, b.Station, sum)
	}
}

func TestCardFaults(t *testing.T) {
	d, _ := demoDesk(t)
	ctx := signed(t)
	for name, c := range map[string]struct {
		ask  func() error
		kind fault.Kind
		want string
	}{
		"no such job":          {func() error { _, err := d.Card(ctx, "21o1", ""); return err }, fault.Missing, "did you mean"},
		"nobody can":           {func() error { _, err := d.Card(ctx, "2124", ""); return err }, fault.No, "no folder can fold it"},
		"no such set":          {func() error { _, err := d.Build(ctx, "W-O4", "2101", "", ""); return err }, fault.Missing, `did you mean "W-04"?`},
		"shafts of no station": {func() error { _, err := d.Build(ctx, "S-03", "2101", "birch", ""); return err }, fault.No, "has no use on birch"},
		"sets misspelt":        {func() error { _, err := d.Labels(ctx, []string{"W-04", "W-O5"}); return err }, fault.Missing, `"W-O5"`},
	} {
		err := c.ask()
		list := fault.All(err)
		if len(list) != 1 || list[0].Kind != c.kind || !strings.Contains(list[0].Error(), c.want) {
			t.Errorf("%s: got %v, want a fault of kind %v with %q", name, err, c.kind, c.want)
		}
	}
}
