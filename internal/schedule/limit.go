package schedule

// limit ends the decoding of an order as soon as it cannot cost little enough any more.
type limit struct {
	outlook *outlook // of the order; nil without a limit
	rest    int64    // what the tasks to come cost at the least
	bar     int64    // what the order may cost in all
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
	d.limit = limit{outlook: o, rest: o.sum, bar: bar.Total}
	cost := d.run(order, nil)
	return cost, !d.passed() && !bar.Less(cost)
}

// count takes the task at a machine's place from those to come.
func (l *limit) count(i, place int) {
	if l.outlook != nil {
		marks := l.outlook.marks[i]
		l.rest -= marks[place+1].price - marks[place].price
	}
}

// passed says whether the tasks so far, and the least that those to come add, cost more than the order may.
func (d *decoder) passed() bool {
	if d.limit.outlook == nil {
		return false
	}
	c, w := &d.cost, &d.Weights
	return c.Unplaced > 0 || w.Late*c.Late+w.Setup*c.Setup+w.Bench*c.Bench+d.limit.rest > d.limit.bar
}
