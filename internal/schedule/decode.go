package schedule

import "slices"

// Decode makes a timed plan of an order that [Problem.CheckOrder] accepts, or of the beginning of one: jobs that are not
// in it are as if they did not exist.
//
// Tasks are handled by the earliest possible start of their set-up over all machines, ties by machine number; each takes
// the tooling that costs least as things then stand. A job that cannot be placed is left out and named in
// [Plan.Unplaced]; the jobs after it go on.
func Decode(p *Problem, order Order) *Plan {
	return NewDecoder(p).Plan(order)
}

// Decoder decodes many orders of one problem, which spares laying the problem out each time. It is for one goroutine.
type Decoder struct{ d *decoder }

// NewDecoder makes a decoder.
func NewDecoder(p *Problem) *Decoder { return &Decoder{newDecoder(newModel(p))} }

// Follow lets the decoder grant wishes, where it can, in all that it decodes from now on.
func (d *Decoder) Follow(wishes []Wish) *Decoder {
	d.d.follow(wishes)
	return d
}

// Plan is what [Decode] makes of the order.
func (d *Decoder) Plan(order Order) *Plan {
	return d.d.write(order)
}

// Cost is the cost of that plan; it allocates nothing.
func (d *Decoder) Cost(order Order) Cost { return d.d.decode(order, nil) }

// decoder decodes one order after another without allocating.
type decoder struct {
	*model
	*state
	order    Order
	cost     Cost
	plan     *Plan // nil when only the cost is wanted
	chosen   []choice
	trial    []choice
	position []int64 // of the guide that are worth trying for the task at hand
	serving  [][]int // of each station: sets on the rack that serve the task at hand at some position, by number
	guideTo  []int64 // of each unit: where the task at hand puts the guide
	wishes   wishes  // nil without any
	asked    []Wish  // of the task at hand while it is to be granted
	forgone  []bool  // of each job: it no longer waits for a set that it wishes
	survey   *survey // nil but when other ways are looked for
	racks    *racks  // nil without any
	limit    limit
	setup    []Time // of each job that has a place
	begun    []Time // of each job that has a place: when its set-up starts
}

func newDecoder(m *model) *decoder {
	d := &decoder{model: m, state: newState(m), setup: make([]Time, m.jobs), begun: make([]Time, m.jobs), forgone: make([]bool, m.jobs)}
	d.guideTo = make([]int64, len(d.guides))
	d.serving = make([][]int, len(d.mounted))
	if m.Racks != nil {
		d.racks = newRacks(m.Problem)
	}
	return d
}

// decode returns the cost of the order and, when plan is not nil, writes the plan into it.
func (d *decoder) decode(order Order, plan *Plan) Cost {
	d.limit.outlook = nil
	return d.run(order, plan)
}

// write decodes an order into a plan.
func (d *decoder) write(order Order) *Plan {
	plan := &Plan{}
	d.decode(order, plan)
	plan.Wishes = slices.Concat(d.wishes...)
	return plan
}

// run decodes an order; what it returns is only part of the cost where the limit is passed.
func (d *decoder) run(order Order, plan *Plan) Cost {
	d.order, d.plan, d.cost = order, plan, Cost{}
	d.reset(d.model)
	clear(d.forgone)
	d.guess()
	if d.racks != nil {
		d.racks.lay(d.Problem, order)
	}
	if plan != nil {
		*plan = Plan{Tasks: make([][]Task, len(order))}
	}
	for i := range order {
		d.look(i)
	}
	for !d.passed() {
		if i := d.soonest(); i >= 0 {
			d.handle(i)
		} else if !d.giveUp() {
			break
		}
	}
	d.finish()
	return d.cost
}

// guess fills in rough starts: the order's set-ups and runs one after another, without windows, waits and tooling.
func (d *decoder) guess() {
	for j := range d.rough {
		d.rough[j] = Forever
	}
	for i, row := range d.order {
		var t Time
		last := d.jobs
		for _, j := range row {
			d.rough[j] = t
			t += d.Setup[i][last][j] + d.Jobs[j].Run[i]
			last = j
		}
	}
}

// look works out when the next set-up of a machine could start, and whether it can.
func (d *decoder) look(i int) {
	row := d.order[i]
	if d.place[i] == len(row) {
		d.mood[i] = done
		return
	}
	j := row[d.place[i]]
	from := d.free[i]
	if d.started[i] != j {
		from = max(from, d.Jobs[j].Release)
		for _, b := range d.before[j] {
			if d.end[b] < 0 {
				d.mood[i] = blocked
				return
			}
			from = max(from, d.end[b])
		}
	}
	d.mood[i], d.begin[i] = ready, d.shifts[i].next(from)
}

// soonest is the ready machine whose next set-up could start first; -1 when none is ready.
func (d *decoder) soonest() int {
	best := -1
	for i, mood := range d.mood {
		if mood == ready && (best < 0 || d.begin[i] < d.begin[best]) {
			best = i
		}
	}
	return best
}

// handle places the next job of a machine, or finds that it has to wait.
func (d *decoder) handle(i int) {
	j := d.order[i][d.place[i]]
	t := Task{Job: j, SetupStart: d.begin[i]}
	switch {
	case t.SetupStart >= Forever:
		d.drop(i, d.lateReason(j))
		return
	case d.started[i] == j:
		d.stay(i)
	default:
		t.Base = d.Setup[i][d.last[i]][j]
		if d.racks != nil {
			t.Loads = d.racks.loads[j]
		}
		if !d.choose(i, &t) {
			d.mood[i] = stuck
			return
		}
	}
	if d.time(i, &t); t.RunEnd >= Forever {
		d.drop(i, NoTime)
		return
	}
	d.enter(i, &t)
}

// time sets the times of a task whose set-up start is the earliest that its tools allow.
func (d *decoder) time(i int, t *Task) {
	s := &d.shifts[i]
	t.SetupStart = s.next(t.SetupStart)
	work := t.Base + t.Guides + t.Loads
	for c := range d.chosen {
		work += d.chosen[c].time
	}
	t.RunStart = s.next(s.finish(t.SetupStart, work))
	t.RunEnd = s.finish(t.RunStart, d.Jobs[t.Job].Run[i])
	if t.RunEnd < Forever {
		d.cost.Setup += work
		d.work[i] += work + d.Jobs[t.Job].Run[i]
		d.setup[t.Job], d.begun[t.Job] = work, t.SetupStart
	}
}

// enter makes a task part of the state and goes on to the machine's next.
func (d *decoder) enter(i int, t *Task) {
	j := &d.Jobs[t.Job]
	d.cost.Late += j.Weight * max(0, t.RunEnd-j.Due)
	if d.plan != nil {
		d.record(i, t)
	}
	freed := d.commit(i, t)
	d.count(i, t)
	d.free[i], d.last[i], d.end[t.Job] = t.RunEnd, t.Job, t.RunEnd
	d.place[i]++
	d.look(i)
	d.wake(freed)
}

// wake looks again at the machines that wait for a job, and for tools when some may have come free.
func (d *decoder) wake(freed bool) {
	for i, mood := range d.mood {
		if mood == blocked || mood == stuck && freed {
			d.look(i)
		}
	}
}

// drop leaves the next job of a machine without a place.
func (d *decoder) drop(i int, why Reason) {
	j := d.order[i][d.place[i]]
	d.cost.Unplaced++
	d.end[j] = Forever
	if d.plan != nil {
		d.plan.Unplaced = append(d.plan.Unplaced, Unplaced{Job: j, Why: why})
	}
	d.place[i]++
	d.look(i)
	d.wake(false)
}

// placed says whether a job has a place.
func (d *decoder) placed(j int) bool { return d.end[j] >= 0 && d.end[j] < Forever }

// lateReason tells a job that no working time is left for from one whose predecessor has no place.
func (d *decoder) lateReason(j int) Reason {
	for _, b := range d.before[j] {
		if d.end[b] >= Forever {
			return Orphan
		}
	}
	return NoTime
}

// giveUp helps or drops one job when no machine can go on: one that has no tools if there is one, otherwise one of a
// circle of jobs that wait for each other. It reports false when every machine is done.
func (d *decoder) giveUp() bool {
	waiting := -1
	for i, mood := range d.mood {
		if mood == stuck {
			if d.forgo(i) {
				return true
			}
			if d.strip(i) {
				d.wake(true)
			} else {
				d.drop(i, NoTools)
			}
			return true
		}
		if mood == blocked && waiting < 0 {
			waiting = i
		}
	}
	if waiting < 0 {
		return false
	}
	d.drop(waiting, Deadlock)
	return true
}

// finish completes the cost and the plan.
func (d *decoder) finish() {
	for i := range d.free {
		d.cost.Makespan = max(d.cost.Makespan, d.free[i])
		if d.free[i] > 0 {
			d.cost.Wait += d.shifts[i].worked(d.free[i]) - d.work[i]
		}
		if d.Closing != nil && d.last[i] < d.jobs {
			d.cost.Setup += d.Closing[i][d.last[i]]
		}
	}
	d.cost.weigh(d.Weights)
	if d.plan != nil {
		d.plan.Cost = d.cost
		d.plan.tidy()
	}
}
