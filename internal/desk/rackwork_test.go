package desk_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/tooling"
)

// Worked by hand on the demo's rack: W-04 has slot A1 and W-02 stands in 1A of birch, so the two change places. Then W-02
// goes to the bench and from there back into the station: W-04 has no slot to go to and lies on the bench.
func TestDisplacedSetsTakeTheSlot(t *testing.T) {
	d := kept(t)
	ctx := as(t, access.Operator)
	station := tooling.Place{Folder: "birch", Station: "1A"}
	for _, step := range []struct {
		label string
		to    tooling.Place
		w02   tooling.Place
		w04   tooling.Place
	}{
		{"W-04", station, tooling.Place{Slot: "A1"}, station},
		{"W-02", tooling.Place{Bench: true}, tooling.Place{Bench: true}, station},
		{"W-02", station, station, tooling.Place{Bench: true}},
	} {
		moved, err := d.MoveSet(ctx, step.label, step.to)
		if err != nil {
			t.Fatal(err)
		}
		s := shopNow(t, d)
		if got := [2]tooling.Place{placeOf(t, s, "W-02"), placeOf(t, s, "W-04")}; got != [2]tooling.Place{step.w02, step.w04} {
			t.Errorf("%s to %v: W-02 and W-04 are at %v", step.label, step.to, got)
		}
		if moved.Name != step.label || moved.Value.(tooling.Set).Place != step.to {
			t.Errorf("%s to %v: answered %v", step.label, step.to, moved)
		}
	}
}

func TestRackFaults(t *testing.T) {
	d := kept(t)
	op, lead := as(t, access.Operator), as(t, access.Lead)
	for name, c := range map[string]struct {
		do   func() error
		want string
	}{
		"no such set":   {func() error { _, err := d.MoveSet(op, "W-40", tooling.Place{Bench: true}); return err }, "unknown-name"},
		"slot is taken": {func() error { _, err := d.MoveSet(op, "W-05", tooling.Place{Slot: "A1"}); return err }, "set-place"},
		"nowhere":       {func() error { _, err := d.MoveSet(op, "W-05", tooling.Place{}); return err }, "set-place"},
		"wrong class": {func() error {
			_, err := d.MoveSet(op, "S-03", tooling.Place{Folder: "birch", Station: "1A"})
			return err
		}, "set-class"},
		"no use":           {func() error { _, err := d.BuildSet(op, "S-03", "2101", "birch", ""); return err }, "no-station"},
		"mounted":          {func() error { return d.RetireSet(lead, "W-01") }, "set-mounted"},
		"operator retires": {func() error { return d.RetireSet(op, "W-05") }, "not-allowed"},
		"viewer moves": {func() error {
			_, err := d.MoveSet(as(t, access.Viewer), "W-05", tooling.Place{Bench: true})
			return err
		}, "not-allowed"},
		"viewer builds": {func() error { _, err := d.BuildSet(as(t, access.Viewer), "W-07", "2101", "birch", ""); return err }, "not-allowed"},
		"viewer strips": {func() error { _, err := d.StripSet(as(t, access.Viewer), "W-05"); return err }, "not-allowed"},
	} {
		t.Run(name, func(t *testing.T) { wantFault(t, c.do(), c.want) })
	}
	if diff := cmp.Diff(allTools(shopNow(t, kept(t))), allTools(shopNow(t, d))); diff != "" {
		t.Errorf("what was refused changed something:\n%s", diff)
	}
}

// wantFault holds an error to the code of its first fault.
func wantFault(t *testing.T, err error, code string) {
	t.Helper()
	list := fault.All(err)
	if len(list) == 0 || string(list[0].Code) != code {
		t.Errorf("got %v, want a fault with code %s", err, code)
	}
}

// W-07 carries one score; 2101 wants one perforation there. The score comes loose, a perforation of the three goes on; when all are on
// sets, the fault names those that carry one.
func TestBuildingCountsTheTools(t *testing.T) {
	d := kept(t)
	ctx := as(t, access.Operator)
	before := shopNow(t, d)
	if _, err := d.BuildSet(ctx, "W-07", "2101", "birch", ""); err != nil {
		t.Fatal(err)
	}
	s := shopNow(t, d)
	perforate, score := tooling.Type{Kind: tooling.Perforate, Spec: "12 tpi"}, tooling.Type{Kind: tooling.Score, Spec: "0.7 mm"}
	for _, c := range []struct {
		of   tooling.Type
		more int
	}{{perforate, -1}, {score, 1}} {
		was, _ := before.Tool("wide 35", c.of)
		now, _ := s.Tool("wide 35", c.of)
		if now.Loose != was.Loose+c.more {
			t.Errorf("%v: %d lie loose, there were %d", c.of, now.Loose, was.Loose)
		}
	}
	built, _ := s.Set("W-07")
	if built.Place != (tooling.Place{Slot: "A4"}) || len(built.Tools) != 1 || built.Tools[0].Type != perforate {
		t.Errorf("W-07 is %v", built)
	}
	for _, label := range []string{"W-01", "W-02"} {
		if _, err := d.BuildSet(ctx, label, "2101", "birch", ""); err != nil {
			t.Fatal(err)
		}
	}
	_, err := d.BuildSet(ctx, "W-03", "2101", "birch", "1A")
	wantFault(t, err, "tools-lacking")
	if err != nil && !strings.Contains(err.Error(), "W-04, W-05, W-07") {
		t.Errorf("%v does not say which sets carry such tools", err)
	}
}

func TestRetiringLeavesTheTools(t *testing.T) {
	d := kept(t)
	before := shopNow(t, d)
	if err := d.RetireSet(as(t, access.Lead), "W-04"); err != nil {
		t.Fatal(err)
	}
	s := shopNow(t, d)
	if _, ok := s.Set("W-04"); ok {
		t.Error("W-04 is still there")
	}
	if diff := cmp.Diff(allTools(before), allTools(s)); diff != "" {
		t.Errorf("tools went with it:\n%s", diff)
	}
}

// Goal: whatever hands do, no tool and no set comes from nowhere or gets lost, and no place holds two sets. Method: random work; the
// tools and sets counted before and after, the places by the shop's own check.
func TestHandsLoseNothing(t *testing.T) {
	d := kept(t)
	ctx := as(t, access.Operator)
	first := shopNow(t, d)
	labels, jobs := first.SetLabels(), first.JobNames()[:8]
	places := []tooling.Place{{Bench: true}, {Slot: "Z9"}, {Slot: "A1"}, {Folder: "birch", Station: "1A"}, {Folder: "alder", Station: "1A"}, {Folder: "hazel", Station: "1B"}}
	rapid.Check(t, func(rt *rapid.T) {
		label := rapid.SampledFrom(labels).Draw(rt, "set")
		var err error
		switch rapid.IntRange(0, 3).Draw(rt, "work") {
		case 0:
			_, err = d.StripSet(ctx, label)
		case 1:
			_, err = d.BuildSet(ctx, label, rapid.SampledFrom(jobs).Draw(rt, "job"), "", "")
		default:
			_, err = d.MoveSet(ctx, label, rapid.SampledFrom(places).Draw(rt, "to"))
		}
		if err != nil && len(fault.All(err)) == 0 {
			rt.Fatalf("refused without a reason: %v", err)
		}
		s := shopNow(t, d)
		if diff := cmp.Diff(allTools(first), allTools(s)); diff != "" {
			rt.Fatalf("tools differ:\n%s", diff)
		}
		if got := fmt.Sprint(s.SetLabels()); got != fmt.Sprint(labels) {
			rt.Fatalf("sets %s, there were %s", got, labels)
		}
	})
}
