package plan_test

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/demo"
	"foldwright/internal/exchange"
	"foldwright/internal/job"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	"foldwright/internal/units"
)

// vary changes a shop at random: tools short or plenty, sets elsewhere, other hours, jobs left out, waiting for each
// other, pinned, due sooner or later.
func vary(t *rapid.T, s *shop.Shop) {
	for i := range s.Tools {
		s.Tools[i].Loose = rapid.IntRange(0, 3).Draw(t, "loose")
	}
	keep := s.Jobs[:0]
	for _, j := range s.Jobs {
		if rapid.IntRange(0, 5).Draw(t, "left out") > 0 {
			keep = append(keep, j)
		}
	}
	s.Jobs = keep
	named := map[string]bool{}
	for i := range s.Jobs {
		j := &s.Jobs[i]
		j.Sheets = rapid.IntRange(1, 20000).Draw(t, "sheets")
		j.Weight = rapid.IntRange(1, 5).Draw(t, "weight")
		j.Due = s.Now.Add(time.Duration(rapid.IntRange(3600, 4*24*3600).Draw(t, "due")) * time.Second)
		j.Release = time.Time{}
		if rapid.Bool().Draw(t, "released later") {
			j.Release = s.Now.Add(time.Duration(rapid.IntRange(0, 3000).Draw(t, "release")) * time.Second)
		}
		after := j.After[:0]
		for _, before := range j.After {
			if named[before] { // the job was not left out
				after = append(after, before)
			}
		}
		j.After = after
		named[j.Name] = true
		if j.Pin.Started && rapid.Bool().Draw(t, "not yet started") {
			j.Pin.Started = false
		}
		j.Given = rapid.SampledFrom([]string{"", "", s.Folders[0].Name, s.Folders[1].Name}).Draw(t, "given")
		j.Choices = anyChoices(t, s)
	}
	if rapid.Bool().Draw(t, "nobody on the bench") {
		s.Bench = nil
	}
	if rapid.Bool().Draw(t, "folders not known") {
		s.States = nil
	}
	at := func(label string) time.Time { // before the change of the clock
		return s.Now.Add(time.Duration(rapid.IntRange(-5, 30*60).Draw(t, label)) * time.Minute)
	}
	absence := func(label string) []calendar.Window {
		if from, to := at(label), at(label); from.Before(to) && rapid.IntRange(0, 2).Draw(t, label+" at all") == 0 {
			return []calendar.Window{{From: from, To: to}}
		}
		return nil
	}
	for i := range s.States {
		s.States[i].Down = absence("down")
	}
	for i := range s.Bench {
		s.Bench[i].Away = absence("away")
	}
	for i := range s.Folders {
		s.Folders[i].Calendar = s.Calendars[rapid.IntRange(0, 2).Draw(t, "calendar")].Name
	}
	s.Weights = shop.Weights{
		Late: float64(rapid.IntRange(0, 5).Draw(t, "late")), Makeready: float64(rapid.IntRange(0, 3).Draw(t, "make-ready")),
		Waiting: float64(rapid.IntRange(0, 3).Draw(t, "waiting")), Bench: float64(rapid.IntRange(0, 4).Draw(t, "bench")) / 4,
	}
}

// anyChoices are a few ways to tools, most of which will not do.
func anyChoices(t *rapid.T, s *shop.Shop) []job.Choice {
	var out []job.Choice
	for range rapid.IntRange(-3, 2).Draw(t, "choices") {
		c := job.Choice{Unit: rapid.IntRange(1, 2).Draw(t, "unit"), Guide: units.Length(rapid.IntRange(0, 400).Draw(t, "guide")) * units.Millimetre}
		if rapid.Bool().Draw(t, "of a set") {
			c = job.Choice{
				Station: rapid.SampledFrom([]string{"1A", "1B", "2A"}).Draw(t, "station"),
				Way:     rapid.SampledFrom([]job.Way{job.Swap, job.Built, job.InFolder}).Draw(t, "way"),
				Set:     s.Sets[rapid.IntRange(0, len(s.Sets)-1).Draw(t, "set")].Label,
			}
		}
		out = append(out, c)
	}
	return out
}

// Goal: whatever the shop, the plan follows from its file to the last second, and every mode is met on the way.
func TestRandomShopsPassTheAudit(t *testing.T) {
	small, large := read(t, "testdata/workshop.yaml"), demo.File()
	met := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		file := small
		if rapid.IntRange(0, 9).Draw(t, "large") == 9 {
			file = large
		}
		s, err := exchange.ReadShop("shop.yaml", file)
		if err != nil {
			t.Fatal(err)
		}
		vary(t, s)
		written := exchange.WriteShop(s)
		if s, err = exchange.ReadShop("varied.yaml", written); err != nil {
			t.Skip(fmt.Sprint("not a shop: ", err))
		}
		p, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 1, Iterations: rapid.IntRange(1, 100).Draw(t, "iterations")})
		if err != nil {
			t.Fatal(err)
		}
		out, err := json.Marshal(exchange.Plan(p))
		if err != nil {
			t.Fatal(err)
		}
		for _, objection := range audit(written, out) {
			t.Error(objection)
		}
		for _, f := range append(p.Folders, p.Given.Folders...) {
			for _, task := range f.Tasks {
				for _, st := range task.Stations {
					met[string(st.Mode)]++
				}
			}
		}
	})
	for _, mode := range []changeover.Mode{changeover.Keep, changeover.Shift, changeover.Swap, changeover.Built, changeover.InFolder, changeover.Plain} {
		if met[string(mode)] == 0 {
			t.Errorf("no station was ever tooled by %q; the shops are too tame", mode)
		}
	}
	t.Log(met)
}
