package plan_test

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"foldwright/internal/demo"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/plan"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// prepared prepares a shop file at the moment it names.
func prepared(t testing.TB, file []byte) (*plan.Prepared, *shop.Shop) {
	t.Helper()
	s, err := exchange.ReadShop("shop.yaml", file)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	return p, s
}

// inJSON is a plan as the doors show it.
func inJSON(t testing.TB, p *plan.Plan) []byte {
	t.Helper()
	out, err := json.MarshalIndent(exchange.Plan(p), "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// auditOneDay reckons one day of a plan after, by what shares nothing with the planner.
func auditOneDay(s *shop.Shop, doc *exchange.PlanDocument) []string {
	c := &checker{shop: s, house: s.SettingsHouse(), doc: doc, ways: map[wayKey]*settings.Settings{}}
	c.day("plan", &doc.PlanDay)
	return c.objects
}

// Goal: a shop prepared once answers as Make does; the order of a plan, worked out again, is that plan.
func TestEvaluateIsWhatTheSearchFound(t *testing.T) {
	for name, file := range shops(t) {
		t.Run(name, func(t *testing.T) {
			p, s := prepared(t, file)
			o := plan.Options{Seed: 3, Iterations: 300}
			made, err := plan.Make(context.Background(), s, s.Now, o)
			if err != nil {
				t.Fatal(err)
			}
			found, err := p.Search(context.Background(), nil, o)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(inJSON(t, made)), string(inJSON(t, found))); diff != "" {
				t.Fatal(diff)
			}
			again, err := p.Evaluate(found.Order())
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(placedOnly(found), exchange.Plan(found).Order(), cmpopts.EquateEmpty()); diff != "" {
				t.Error("the order that the document tells: ", diff)
			}
			again.Bound, again.Search = found.Bound, found.Search
			if diff := cmp.Diff(string(inJSON(t, found)), string(inJSON(t, again))); diff != "" {
				t.Error(diff)
			}
			given, err := p.Evaluate(p.Given())
			if err != nil {
				t.Fatal(err)
			}
			doc := exchange.Plan(given)
			if diff := cmp.Diff(doc.GivenOrder, doc.PlanDay); diff != "" || len(doc.Moves) > 0 {
				t.Error("the order given is not itself: ", diff, doc.Moves)
			}
		})
	}
}

// placedOnly is the order of a plan without the jobs that found no place, of which its document does not tell where they stood.
func placedOnly(pl *plan.Plan) plan.Order {
	out := pl.Order()
	for i := range out {
		out[i].Jobs = slices.DeleteFunc(out[i].Jobs, func(name string) bool {
			return !slices.ContainsFunc(pl.Folders[i].Tasks, func(t plan.Task) bool { return t.Job == name })
		})
	}
	return out
}

// Goal: what a plan chose for the sake of later jobs goes with its order, is said where it is done, and is worth something: without it the
// same order costs more, and a shop whose jobs hold the choices comes to the same.
func TestChoicesGoWithTheOrder(t *testing.T) {
	p, s := prepared(t, demo.File())
	found, err := p.Search(context.Background(), nil, plan.Options{Seed: 1, Iterations: 3000})
	if err != nil {
		t.Fatal(err)
	}
	bare, chosen := found.Order(), 0
	for i := range bare {
		for _, c := range bare[i].Choices {
			chosen++
			j := slices.IndexFunc(s.Jobs, func(j job.Job) bool { return j.Name == c.Job })
			s.Jobs[j].Given, s.Jobs[j].Choices = bare[i].Folder, append(s.Jobs[j].Choices, c.Choice)
		}
		bare[i].Choices = nil
	}
	byRules, err := p.Evaluate(bare)
	if err != nil {
		t.Fatal(err)
	}
	if chosen == 0 || byRules.Figures.Cost <= found.Figures.Cost {
		t.Errorf("%d choices; the plan costs %v, without them %v", chosen, found.Figures.Cost, byRules.Figures.Cost)
	}
	if said := strings.Count(string(inJSON(t, found)), "for the sake of later jobs"); said == 0 {
		t.Error("no line says why it is not the cheapest way")
	}
	again, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	held, err := again.Evaluate(again.Follow(found.Order()).Given())
	if err != nil || held.Figures.Cost != found.Figures.Cost {
		t.Errorf("followed, the plan costs %v, at first %v (%v)", held.Figures.Cost, found.Figures.Cost, err)
	}
}

// Goal: a guide that a person wishes where it cannot go stays out of the plan.
func TestChoiceBeyondTheGuide(t *testing.T) {
	p, s := prepared(t, demo.File())
	given, err := p.Evaluate(p.Given())
	if err != nil {
		t.Fatal(err)
	}
	for i := range s.Jobs {
		s.Jobs[i].Choices = []job.Choice{{Unit: 1, Guide: 9 * units.Metre}, {Unit: 1, Guide: -1}, {Unit: 99}}
	}
	again, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	with, err := again.Evaluate(again.Given())
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(inJSON(t, given)), string(inJSON(t, with))); diff != "" {
		t.Error(diff)
	}
}

// Goal: the search is never worse than where it starts, wherever that is; and it goes there even when it has no time.
func TestSearchIsNeverWorseThanItsStart(t *testing.T) {
	p, _ := prepared(t, read(t, "testdata/workshop.yaml"))
	good, err := p.Search(context.Background(), nil, plan.Options{Seed: 1, Iterations: 3000})
	if err != nil {
		t.Fatal(err)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	again, err := p.Search(stopped, good.Order(), plan.Options{Seed: 9})
	if err != nil {
		t.Fatal(err)
	}
	if again.Figures.Cost > good.Figures.Cost {
		t.Errorf("from a plan of %v the search came to %v", good.Figures.Cost, again.Figures.Cost)
	}
}

// Goal: any order that can be read is worked out right, by hands that drag jobs about. Method: jobs are moved at random,
// and a reckoning of its own goes through the day.
func TestAnyOrderIsWorkedOutRight(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	p, s := prepared(t, file)
	rapid.Check(t, func(r *rapid.T) {
		order := p.Given()
		for range rapid.IntRange(1, 6).Draw(r, "moves") {
			job := rapid.SampledFrom(s.JobNames()).Draw(r, "job")
			folder := rapid.SampledFrom(s.FolderNames()).Draw(r, "folder")
			moved, err := order.Move(job, folder, rapid.IntRange(1, 4).Draw(r, "place"))
			if err != nil {
				continue
			}
			if day, err := p.Evaluate(moved); err == nil && len(day.Unplaced) == 2 { // else a job stands before one that it waits for
				order = moved
			}
		}
		day, err := p.Evaluate(order)
		if err != nil {
			r.Fatal(err)
		}
		if diff := cmp.Diff(order, day.Order()); diff != "" {
			r.Fatal(diff)
		}
		for _, objection := range auditOneDay(s, exchange.Plan(day)) {
			r.Error(objection)
		}
	})
}

// Goal: a job left out is told as such, and so is what waits for it; a search puts both back.
func TestJobsLeftOutAreTold(t *testing.T) {
	p, _ := prepared(t, read(t, "testdata/workshop.yaml"))
	order := p.Given()
	for i := range order {
		order[i].Jobs = slices.DeleteFunc(order[i].Jobs, func(name string) bool { return name == "103" })
	}
	day, err := p.Evaluate(order)
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, u := range day.Unplaced {
		told = append(told, u.Job+" "+u.Whys[0].Text.String())
	}
	want := []string{"103 not in the order", "104 it waits for 103, which is not in the order"}
	if diff := cmp.Diff(want, told[:2]); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(order, day.Order()); diff != "" {
		t.Error("what waits is no longer in the order:", diff)
	}
	found, err := p.Search(context.Background(), order, plan.Options{Seed: 1, Iterations: 10})
	if err != nil {
		t.Fatal(err)
	}
	if len(found.Unplaced) != len(day.Unplaced)-2 {
		t.Errorf("the search left out %v", found.Unplaced)
	}
}

// Goal: an order that cannot be read says what is wrong, once, with its place and what would be right.
func TestFaultsOfAnOrder(t *testing.T) {
	p, _ := prepared(t, read(t, "testdata/workshop.yaml"))
	for _, c := range []struct {
		name  string
		spoil func(o plan.Order) plan.Order
		want  string
	}{
		{"unknown folder", func(o plan.Order) plan.Order { o[0].Folder = "eldr"; return o }, `order[0].folder: there is no folder "eldr"; did you mean "elder"? [order-name]`},
		{"folder twice", func(o plan.Order) plan.Order { return append(o, plan.Lane{Folder: "elder"}) }, "order[2].folder: the folder elder stands in the order twice; give it one lane [order-twice]"},
		{"unknown job", func(o plan.Order) plan.Order { o[1].Jobs[0] = "1O8"; return o }, `order[1].jobs[0]: there is no job "1O8"; did you mean "108"? [order-name]`},
		{"a job that is done", func(o plan.Order) plan.Order { o[1].Jobs = append(o[1].Jobs, "90"); return o }, "job 90 is done; leave it out [order-name]"},
		{"job twice", func(o plan.Order) plan.Order { o[1].Jobs = append(o[1].Jobs, "101"); return o }, "job 101 stands twice, on elder and on larch; give it one place [order-twice]"},
		{"a job nobody can run", func(o plan.Order) plan.Order { o[0].Jobs = append(o[0].Jobs, "110"); return o }, "elder cannot run job 110: "},
		{"a job pinned elsewhere", func(o plan.Order) plan.Order { o, _ = o.Move("108", "elder", 2); return o }, "elder cannot run job 108: the job is pinned to larch [order-run]"},
		{"in front of what has started", func(o plan.Order) plan.Order { o, _ = o.Move("102", "elder", 1); return o }, "order: on elder a job that has started or is pinned to its place does not stand there; begin the folder with 101 [order-fixed]"},
		{"started, left out", func(o plan.Order) plan.Order { o[0].Jobs = o[0].Jobs[1:]; return o }, "begin the folder with 101 [order-fixed]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := p.Evaluate(c.spoil(p.Given()))
			if faults := fault.All(err); len(faults) != 1 || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v\nwant %s", err, c.want)
			}
			if _, err := p.Search(context.Background(), c.spoil(p.Given()), plan.Options{Iterations: 1}); err == nil {
				t.Error("the search began there")
			}
		})
	}
}

// Goal: moves go where they are told, and say so when there is no such place.
func TestMoveOfAnOrder(t *testing.T) {
	order := plan.Order{{Folder: "elder", Jobs: []string{"a", "b", "c"}}, {Folder: "larch"}}
	for _, c := range []struct {
		job, folder string
		place       int
		want        string
	}{
		{"a", "elder", 1, "elder a b c; larch"},
		{"a", "elder", 3, "elder b c a; larch"},
		{"c", "elder", 1, "elder c a b; larch"},
		{"b", "larch", 1, "elder a c; larch b"},
		{"new", "elder", 2, "elder a new b c; larch"},
		{"a", "elder", 4, "place: elder has no place 4; a place from 1 to 3 [order-place]"},
		{"a", "larch", 0, "place: larch has no place 0; a place from 1 to 1 [order-place]"},
		{"a", "ash", 1, `folder: the order has no folder "ash"; name a folder of the shop [order-name]`},
	} {
		moved, err := order.Move(c.job, c.folder, c.place)
		got := written(moved)
		if err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s to %s, place %d: %s, want %s", c.job, c.folder, c.place, got, c.want)
		}
	}
	if got := written(order); got != "elder a b c; larch" {
		t.Error("the order itself changed:", got)
	}
}

func written(o plan.Order) string {
	lanes := make([]string, len(o))
	for i, l := range o {
		lanes[i] = strings.Join(append([]string{l.Folder}, l.Jobs...), " ")
	}
	return strings.Join(lanes, "; ")
}

// Goal: many may ask one prepared shop at once and all get the same answer (the race detector watches).
func TestManyAskAtOnce(t *testing.T) {
	p, _ := prepared(t, read(t, "testdata/workshop.yaml"))
	answers := make([]string, 8)
	var wait sync.WaitGroup
	for i := range answers {
		wait.Go(func() {
			found, err := p.Search(context.Background(), p.Given(), plan.Options{Seed: 1, Iterations: 100})
			if err != nil {
				t.Error(err)
				return
			}
			day, err := p.Evaluate(found.Order())
			if err != nil {
				t.Error(err)
				return
			}
			answers[i] = string(inJSON(t, day))
		})
	}
	wait.Wait()
	if len(slices.Compact(answers)) != 1 {
		t.Error("the answers differ")
	}
}
