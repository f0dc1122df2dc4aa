package schedule

// outlook forecasts what the rows of an order come to when every set-up takes what a table says and nothing waits for tools or
// other machines. With the least set-ups it is what no plan undercuts; with those of late it comes near what decoding finds, in
// a hundredth of the time.
type outlook struct {
	*model
	arcs    *arcs
	legs    [][]leg  // of each machine, by job
	closing []Time   // of each machine: when its last window ends
	marks   [][]mark // of each machine: one after every place, behind one for the start
	sum     int64    // price of all rows
	waiting int64    // price of a second in which a machine waits for a release
	turns   []Time   // of each precedence, see turns.go
}

// leg is what a forecast must know of a job on a machine.
type leg struct {
	run, release, due Time
	weight            int64
	turn              Time  // when it should have ended for the sake of jobs after it
	push              int64 // price of a second that it ends later
	kind, row         int   // in the arcs: its kind, and where the row of those that follow it begins
}

// mark is how far a row has come.
type mark struct {
	at     Time
	window int   // in which at lies
	price  int64 // of set-ups, lateness and waits
	setup  Time  // before the job at that place
	idle   Time  // working seconds without work so far
}

func newOutlook(m *model, a *arcs) outlook {
	o := outlook{model: m, arcs: a, waiting: m.Weights.Wait, turns: make([]Time, len(m.Precedences))}
	for i := range m.Machines {
		legs, k := make([]leg, m.jobs+1), &a.kinds[i] // the last for the present state
		for j, kind := range k.of {
			legs[j].kind, legs[j].row = kind, kind*len(k.list)
		}
		for j := range m.Jobs {
			job, leg := &m.Jobs[j], &legs[j]
			leg.run, leg.release, leg.due, leg.weight, leg.turn = job.Run[i], job.Release, job.Due, job.Weight*m.Weights.Late, Forever
			if m.started[i] == j {
				leg.release = 0
			}
		}
		o.legs = append(o.legs, legs)
		var closing Time
		if w := m.Machines[i].Windows; len(w) > 0 {
			closing = w[len(w)-1].To
		}
		o.closing = append(o.closing, closing)
		o.marks = append(o.marks, make([]mark, 1, m.jobs+1))
	}
	return o
}

// newFloor is the outlook with the least set-ups that no plan undercuts. A set-up that takes longer may fill a wait; so that a row
// does not become cheaper by it, a wait costs no more than a set-up.
func newFloor(m *model, a *arcs) outlook {
	o := newOutlook(m, a)
	o.waiting = min(o.waiting, m.Weights.Setup)
	return o
}

// lay forecasts all rows anew.
func (o *outlook) lay(rows Order) {
	o.sum = 0
	for i, row := range rows {
		o.marks[i] = o.walk(i, row, o.marks[i])
		o.sum += o.price(i)
	}
}

// relay forecasts a row anew that has changed: from the first changed place to where it goes on as it did. What lies behind costs more or
// less by the same.
func (o *outlook) relay(i int, was, row []int) {
	o.sum -= o.price(i)
	place, end, shift := differ(was, row)
	old := o.marks[i]
	marks := old[:len(row)+1]
	copy(marks[end+1:], old[end+1+shift:])
	o.marks[i] = marks
	from, m := o.front(row, place), marks[place]
	for at, j := range row[place:] {
		o.take(i, from, j, &m)
		from = j
		at += place + 1
		then := marks[at]
		marks[at] = m
		if at > end && m.at == then.at {
			price, idle := m.price-then.price, m.idle-then.idle
			for n := at + 1; n < len(marks); n++ {
				marks[n].price += price
				marks[n].idle += idle
			}
			break
		}
	}
	o.sum += o.price(i)
}

// differ tells from which place on, and up to which, a row is not as it was; behind that it is, so many places further on.
func differ(was, row []int) (place, end, shift int) {
	end = len(row)
	for place < end && place < len(was) && row[place] == was[place] {
		place++
	}
	shift = len(was) - end
	for end > place && end+shift > place && row[end-1] == was[end-1+shift] {
		end--
	}
	return place, end, shift
}

// front is the job in front of a place; the present state at the first.
func (o *outlook) front(row []int, place int) int {
	if place == 0 {
		return o.jobs
	}
	return row[place-1]
}

func (o *outlook) price(i int) int64 { return last(o.marks[i]).price }

func last[T any](s []T) T { return s[len(s)-1] }

// rise forecasts how much more a row costs once it is changed; where that is more than the limit, it may be more than said.
func (o *outlook) rise(i int, was, row []int, limit int64) int64 {
	place, end, shift := differ(was, row)
	marks := o.marks[i]
	from, m := o.front(row, place), marks[place]
	for at, j := range row[place:] {
		o.take(i, from, j, &m)
		from = j
		if at += place; at >= end { // what follows is as it was
			then := &marks[at+1+shift]
			if more := o.least(&m, then); m.at == then.at || m.at > then.at && more > limit {
				return more
			}
		}
	}
	return m.price - last(marks).price
}

// joins forecasts how much more a row of known marks costs once a job is put in at a place; where that is more than the limit,
// it may be more than said.
func (o *outlook) joins(i int, row []int, marks []mark, place, j int, limit int64) int64 {
	from, m := o.front(row, place), marks[place]
	o.take(i, from, j, &m)
	for at := place; at < len(row); at++ {
		o.take(i, j, row[at], &m)
		j = row[at]
		then := &marks[at+1]
		if more := o.least(&m, then); m.at == then.at || m.at > then.at && more > limit {
			return more
		}
	}
	return m.price - last(marks).price
}

// least is what a row comes to cost more, at the least, that is as it was from here on and no earlier: what comes later does not
// become cheaper, except that a machine may wait less.
func (o *outlook) least(now, then *mark) int64 {
	return now.price - then.price - o.waiting*(now.at-then.at)
}

// walk notes how far a row has come after every place.
func (o *outlook) walk(i int, row []int, marks []mark) []mark {
	marks = marks[:1]
	from, m := o.jobs, marks[0]
	for _, j := range row {
		o.take(i, from, j, &m)
		marks = append(marks, m)
		from = j
	}
	return marks
}

// take lets a machine go on with a job after another.
func (o *outlook) take(i, from, j int, m *mark) {
	legs := o.legs[i]
	leg := &legs[j]
	setup := o.arcs.from[i][legs[from].row+leg.kind]
	m.setup = setup
	m.price += setup * o.Weights.Setup
	if leg.release > m.at {
		idle := m.until(o.shifts[i].windows, leg.release)
		m.idle += idle
		m.price += idle * o.waiting
	}
	m.pass(o.shifts[i].windows, leg.release, setup+leg.run)
	// What finds no place is as late as can be, so that nothing becomes cheaper by coming later; decoding tells that it has none.
	end := min(m.at, o.closing[i])
	m.price += leg.weight * max(0, end-leg.due)
	if end > leg.turn {
		m.price += leg.push * (end - leg.turn)
	}
}

// until is the working seconds up to a later instant. Mostly that is soon, so looking on from here is quicker than a search.
func (m *mark) until(windows []Window, t Time) Time {
	var sum Time
	for n := m.window; n < len(windows) && windows[n].From < t; n++ {
		sum += max(0, min(t, windows[n].To)-max(m.at, windows[n].From))
	}
	return sum
}

// pass lets work be done from the first working instant on that is not before the release.
func (m *mark) pass(windows []Window, release, work Time) {
	t := max(m.at, release)
	for ; m.window < len(windows); m.window++ {
		w := &windows[m.window]
		t = max(t, w.From)
		if left := w.To - t; left >= work && left > 0 {
			m.at = t + work
			return
		} else if left > 0 {
			work -= left
		}
	}
	m.at = Forever
}

// insertion is what a job adds to the set-ups of a row of known marks at a place. The arcs must have their columns.
func (o *outlook) insertion(i int, row []int, marks []mark, place, j int) Time {
	legs, before := o.legs[i], o.front(row, place)
	leg := &legs[j]
	more := o.arcs.into[i][leg.row+legs[before].kind]
	if place < len(row) {
		more += o.arcs.from[i][leg.row+legs[row[place]].kind] - marks[place+1].setup
	}
	return more
}
