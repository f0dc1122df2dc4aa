package schedule

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// broken is a way to break a plan that Evaluate must see, with a word of what it should say. It reports false when the
// plan has nothing of the kind to break.
type broken struct {
	name string
	says string
	do   func(d dice, p *Problem, plan *Plan) bool
}

// anyTask is a random task; nil when there is none.
func anyTask(d dice, plan *Plan) *Task {
	var all []*Task
	for i := range plan.Tasks {
		for n := range plan.Tasks[i] {
			all = append(all, &plan.Tasks[i][n])
		}
	}
	if len(all) == 0 {
		return nil
	}
	return all[d(0, len(all)-1)]
}

// anyMount is a random mount of one of the modes, with its task.
func anyMount(d dice, plan *Plan, modes ...Mode) (*Task, *Mount) {
	type pair struct {
		t *Task
		m *Mount
	}
	var all []pair
	for i := range plan.Tasks {
		for n := range plan.Tasks[i] {
			t := &plan.Tasks[i][n]
			for k := range t.Mounts {
				for _, mode := range modes {
					if t.Mounts[k].Mode == mode {
						all = append(all, pair{t, &t.Mounts[k]})
					}
				}
			}
		}
	}
	if len(all) == 0 {
		return nil, nil
	}
	x := all[d(0, len(all)-1)]
	return x.t, x.m
}

var breakages = []broken{
	{"a run ends early", "s of work", func(d dice, _ *Problem, plan *Plan) bool {
		t := anyTask(d, plan)
		if t != nil {
			t.RunEnd--
		}
		return t != nil
	}},
	{"a run starts late", "", func(d dice, _ *Problem, plan *Plan) bool {
		t := anyTask(d, plan)
		if t != nil {
			t.RunStart++
		}
		return t != nil
	}},
	{"a set-up starts early", "", func(d dice, _ *Problem, plan *Plan) bool {
		t := anyTask(d, plan)
		if t != nil {
			t.SetupStart--
		}
		return t != nil
	}},
	{"the base set-up is told less", "", func(d dice, _ *Problem, plan *Plan) bool {
		t := anyTask(d, plan)
		if t != nil {
			t.Base--
		}
		return t != nil
	}},
	{"a guide move is told more", "guides", func(d dice, p *Problem, plan *Plan) bool {
		t := anyTask(d, plan)
		if t == nil || p.Tools == nil {
			return false
		}
		t.Guides++
		return true
	}},
	{"a job is left out", "", func(d dice, _ *Problem, plan *Plan) bool {
		for i := range plan.Tasks {
			if n := len(plan.Tasks[i]); n > 0 {
				plan.Tasks[i] = plan.Tasks[i][:n-1]
				return true
			}
		}
		return false
	}},
	{"two jobs change places", "its order", func(d dice, _ *Problem, plan *Plan) bool {
		for _, row := range plan.Tasks {
			if len(row) > 1 {
				row[0].Job, row[1].Job = row[1].Job, row[0].Job
				return true
			}
		}
		return false
	}},
	{"a job without a place is kept quiet", "its order", func(_ dice, _ *Problem, plan *Plan) bool {
		some := len(plan.Unplaced) > 0
		plan.Unplaced = nil
		return some
	}},
	{"the cost is told less", "it costs", func(_ dice, _ *Problem, plan *Plan) bool {
		plan.Cost.Total--
		return true
	}},
	{"one part of the cost is moved to another", "it costs", func(_ dice, _ *Problem, plan *Plan) bool {
		plan.Cost.Late++
		plan.Cost.Wait--
		return true
	}},
	{"a set stands at two stations at once", "", func(d dice, _ *Problem, plan *Plan) bool {
		t, m := anyMount(d, plan, Swap, Plain, Built)
		if m == nil {
			return false
		}
		for n := range t.Mounts {
			if other := t.Mounts[n].Set; other >= 0 && other != m.Set {
				m.Set = other
				return true
			}
		}
		return false
	}},
	{"a set is said to come from the rack although it is of another class", "", func(d dice, p *Problem, plan *Plan) bool {
		_, m := anyMount(d, plan, Swap, Plain, Built)
		_, other := anyMount(d, plan, Keep, Shift)
		if m == nil || other == nil || other.Set < 0 || p.Tools.Stations[other.Station].Class == p.Tools.Stations[m.Station].Class {
			return false
		}
		m.Set = other.Set
		return true
	}},
	{"a swap takes no time", "", func(d dice, p *Problem, plan *Plan) bool {
		_, m := anyMount(d, plan, Swap, Plain, Built, InFolder)
		if m == nil || m.Time == 0 {
			return false
		}
		m.Time = 0
		return true
	}},
	{"a swap is called keeping", "", func(d dice, _ *Problem, plan *Plan) bool {
		_, m := anyMount(d, plan, Swap, Plain, Built)
		if m != nil {
			m.Mode = Keep
		}
		return m != nil
	}},
	{"tools fitted in the folder are said to have come from the rack", "", func(d dice, _ *Problem, plan *Plan) bool {
		_, m := anyMount(d, plan, InFolder)
		if m != nil {
			m.Mode = Swap
		}
		return m != nil
	}},
	{"a shift is called keeping", "", func(d dice, _ *Problem, plan *Plan) bool {
		_, m := anyMount(d, plan, Shift)
		if m != nil {
			m.Mode = Keep
		}
		return m != nil
	}},
	{"the guide stands elsewhere", "guide", func(d dice, _ *Problem, plan *Plan) bool {
		_, m := anyMount(d, plan, Keep, Shift, Swap, Plain, Built, InFolder)
		if m != nil {
			m.Guide += 100_000
		}
		return m != nil
	}},
	{"a mount is left out", "station", func(d dice, _ *Problem, plan *Plan) bool {
		t, m := anyMount(d, plan, Keep, Shift, Swap, Plain, Built, InFolder)
		if m != nil {
			t.Mounts = t.Mounts[1:]
		}
		return m != nil
	}},
	{"a build takes less work than it takes", "build", func(d dice, _ *Problem, plan *Plan) bool {
		if len(plan.Builds) == 0 {
			return false
		}
		plan.Builds[d(0, len(plan.Builds)-1)].Work--
		return true
	}},
	{"a build is done after its swap", "", func(d dice, _ *Problem, plan *Plan) bool {
		t, m := anyMount(d, plan, Built)
		if m == nil {
			return false
		}
		b := &plan.Builds[m.Build]
		b.Start += t.SetupStart - b.End + 1
		b.End = t.SetupStart + 1
		return true
	}},
	{"a build is left out", "", func(d dice, _ *Problem, plan *Plan) bool {
		_, m := anyMount(d, plan, Built)
		if m == nil {
			return false
		}
		plan.Builds[m.Build].Station++
		m.Build = -1
		return true
	}},
	{"a build starts from another pattern", "", func(d dice, p *Problem, plan *Plan) bool {
		if len(plan.Builds) == 0 {
			return false
		}
		b := &plan.Builds[d(0, len(plan.Builds)-1)]
		b.From = (b.From + 1) % len(p.Tools.Patterns)
		return true
	}},
}

// clone copies a plan, so that a broken one leaves nothing behind.
func (p *Plan) clone() *Plan {
	text, err := json.Marshal(p)
	if err != nil {
		panic(err)
	}
	c := &Plan{}
	if err := json.Unmarshal(text, c); err != nil {
		panic(err)
	}
	return c
}

// Evaluate must see every way of breaking a good plan; and each way must have been tried often.
func TestEvaluateObjects(t *testing.T) {
	tried := make([]int, len(breakages))
	for seed := range uint64(400) {
		d := seededDice(seed)
		p := anyShape(d).draw(d)
		order := anyOrder(d, p, true)
		plan := Decode(p, order)
		if _, err := Evaluate(p, order, plan); err != nil {
			t.Fatal(err)
		}
		for n, b := range breakages {
			bad := plan.clone()
			if !b.do(d, p, bad) {
				continue
			}
			tried[n]++
			_, err := Evaluate(p, order, bad)
			if err == nil {
				t.Errorf("seed %d: %s, and Evaluate has no objection", seed, b.name)
			} else if !strings.Contains(err.Error(), b.says) {
				t.Errorf("seed %d: %s; want %q in:\n%v", seed, b.name, b.says, err)
			}
		}
	}
	for n, b := range breakages {
		if tried[n] < 5 {
			t.Errorf("%s: tried only %d times", b.name, tried[n])
		}
	}
}

// Less can be loose or busy than the plan believes: breaking the problem instead of the plan must be seen as well.
func TestEvaluateObjectsToAnotherWorld(t *testing.T) {
	loose, people, place := 0, 0, 0
	for seed := range uint64(300) {
		d := seededDice(seed)
		s := anyShape(d)
		s.stations, s.patterns, s.sets, s.people, s.scarce = 3, 6, 9, 1, false
		p := s.draw(d)
		order := anyOrder(d, p, true)
		plan := Decode(p, order)
		if len(plan.Builds) == 0 {
			continue
		}
		b := plan.Builds[0]
		objects := func(what string) {
			t.Helper()
			if _, err := Evaluate(p, order, plan); err == nil {
				t.Errorf("seed %d: %s, and Evaluate has no objection", seed, what)
			}
		}
		if kind := p.lacking(b); kind >= 0 && !comesLoose(plan) {
			loose++
			was := p.Tools.Loose[kind]
			p.Tools.Loose[kind] = 0
			objects("no tool is loose at first")
			p.Tools.Loose[kind] = was
		}
		people++
		was := p.Tools.People[0].Windows
		p.Tools.People[0].Windows = []Window{{From: b.End, To: Forever}}
		objects("the person comes later")
		p.Tools.People[0].Windows = was
		place++
		p.Tools.Sets[b.Set].Locked = true
		objects("the set is locked")
	}
	if loose < 5 || people < 50 || place < 50 {
		t.Errorf("tried only %d, %d, %d times", loose, people, place)
	}
}

// comesLoose says whether tools may come loose at a machine before the first build.
func comesLoose(plan *Plan) bool {
	_, m := anyMount(func(int, int) int { return 0 }, plan, InFolder)
	return m != nil
}

// lacking is a type of tool of which the build draws the first one loose, -1 when it draws none.
func (p *Problem) lacking(b Build) int {
	for _, c := range p.Tools.Patterns[b.Pattern].Tools {
		if p.Tools.Patterns[b.From].lacks(c) > 0 {
			return c.Type
		}
	}
	return -1
}

// Over many worlds the decoder uses every mode and gives every reason: no branch is there for show.
func TestDecoderUsesEverything(t *testing.T) {
	modes, reasons, strips := make(map[Mode]int), make(map[Reason]int), 0
	for seed := range uint64(600) {
		d := seededDice(seed)
		s := anyShape(d)
		s.jobs = d(2, 14)
		p := s.draw(d)
		order := anyOrder(d, p, true)
		plan := Decode(p, order)
		if _, err := Evaluate(p, order, plan); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		built := 0
		for _, row := range plan.Tasks {
			for _, task := range row {
				for _, m := range task.Mounts {
					modes[m.Mode]++
					if m.Mode == Built {
						built++
					}
				}
			}
		}
		strips += len(plan.Builds) - built
		for _, u := range plan.Unplaced {
			reasons[u.Why]++
		}
	}
	for mode := Keep; mode <= Plain; mode++ {
		if modes[mode] < 10 {
			t.Errorf("mode %d came %d times", mode, modes[mode])
		}
	}
	for why := NoTools; why <= Orphan; why++ {
		if reasons[why] < 5 {
			t.Errorf("reason %q came %d times", why, reasons[why])
		}
	}
	if strips < 5 {
		t.Errorf("a set was stripped for its tools %d times", strips)
	}
}

// The slow definition and the quick one of working time agree.
func TestShifts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		windows := shape{windows: true}.shifts(d)
		s := newShifts(windows)
		at, work := Time(d(0, 2000)), Time(d(0, 600))
		if got, want := s.worked(at), worked(windows, 0, at); got != want {
			t.Fatalf("%v: worked before %d is %d, want %d", windows, at, got, want)
		}
		next := s.next(at)
		for instant := at; instant < min(next, 3000); instant++ {
			if open(windows, instant) {
				t.Fatalf("%v: next after %d is %d, but %d is open", windows, at, next, instant)
			}
		}
		if next == Forever {
			return
		}
		if !open(windows, next) {
			t.Fatalf("%v: next after %d is %d, which is not open", windows, at, next)
		}
		end := s.finish(next, work)
		if left := worked(windows, next, Forever); end == Forever {
			if left >= work {
				t.Fatalf("%v: %d s from %d never end, but there are %d", windows, work, next, left)
			}
		} else if !ends(windows, next, end, work) {
			t.Fatalf("%v: %d s from %d do not end at %d", windows, work, next, end)
		}
	})
}
