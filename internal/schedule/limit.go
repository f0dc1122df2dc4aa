package schedule

// limit ends the decoding of an order as soon as it cannot cost little enough any more.
type limit struct {
	arcs *arcs // nil without a limit
	rest Time  // least set-ups of the tasks to come
	bar  int64 // what the order may cost in all
}

// within decodes an order unless it costs more than the bar, in which case it reports false, mostly before it is
// through. The sum is of the order's least set-ups.
func (d *decoder) within(order Order, a *arcs, sum Time, bar Cost) (Cost, bool) {
	if bar.Unplaced > 0 {
		cost := d.decode(order, nil)
		return cost, !bar.Less(cost)
	}
	d.limit = limit{arcs: a, rest: sum, bar: bar.Total}
	cost := d.run(order, nil)
	return cost, !d.passed() && !bar.Less(cost)
}

// enter takes a task that has been entered from those to come.
func (l *limit) enter(i, last, j int) {
	if l.arcs != nil {
		l.rest -= l.arcs.at(i, last, j)
	}
}

// passed says whether the tasks so far, and the least that those to come add, cost more than the order may.
func (d *decoder) passed() bool {
	if d.limit.arcs == nil {
		return false
	}
	c, w := &d.cost, &d.Weights
	return c.Unplaced > 0 || w.Late*c.Late+w.Setup*(c.Setup+d.limit.rest)+w.Bench*c.Bench > d.limit.bar
}
