package schedule

// limit ends the decoding of an order as soon as it cannot cost little enough any more.
type limit struct {
	outlook *outlook // of the order; nil without a limit
	rest    int64    // what the tasks to come cost at the least, without waits
	filled  []Time   // of each machine: its waits by the forecast, less what has taken longer than forecast and may fill them
	waits   []Time   // of each machine: its waits in the end at the least
	waiting Time     // the sum of these
	bar     int64    // what the order may cost in all
}

// begin sets a limit before decoding.
func (l *limit) begin(o *outlook, bar int64) {
	*l = limit{outlook: o, bar: bar, filled: l.filled[:0], waits: l.waits[:0]}
	for i := range o.marks {
		idle := last(o.marks[i]).idle
		l.filled, l.waits = append(l.filled, idle), append(l.waits, idle)
		l.waiting += idle
	}
	l.rest = o.sum - o.waiting*l.waiting
}

// within decodes an order unless it costs more than the bar, in which case it reports false, mostly before it is
// through. The outlook is that of the order.
func (d *decoder) within(order Order, o *outlook, bar Cost) (Cost, bool) {
	if bar.Unplaced > 0 {
		cost := d.decode(order, nil)
		return cost, !bar.Less(cost)
	}
	if o.sum > bar.Total {
		return Cost{}, false
	}
	d.limit.begin(o, bar.Total)
	cost := d.run(order, nil)
	return cost, !d.passed() && !bar.Less(cost)
}

// count takes the task at a machine's place, which ends at the given instant, from those to come.
func (d *decoder) count(i int, t *Task) {
	l := &d.limit
	if l.outlook == nil {
		return
	}
	was, is := &l.outlook.marks[i][d.place[i]], &l.outlook.marks[i][d.place[i]+1]
	l.rest -= is.price - was.price - l.outlook.waiting*(is.idle-was.idle)
	l.filled[i] -= d.setup[t.Job] - is.setup
	waits := max(l.filled[i], d.shifts[i].worked(t.RunEnd)-d.work[i])
	l.waiting += waits - l.waits[i]
	l.waits[i] = waits
}

// passed says whether the tasks so far, and the least that those to come add, cost more than the order may.
func (d *decoder) passed() bool {
	if d.limit.outlook == nil {
		return false
	}
	c, w, l := &d.cost, &d.Weights, &d.limit
	return c.Unplaced > 0 || w.Late*c.Late+w.Setup*c.Setup+w.Bench*c.Bench+l.outlook.waiting*l.waiting+l.rest > l.bar
}
