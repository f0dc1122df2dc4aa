package schedule

import "slices"

// draft is an order that moves change in place and that can be put back as it was before the last change.
type draft struct {
	rows  Order
	saved Order
	dirty []int // machines whose row has been saved since begin
}

func (d *draft) set(o Order, jobs int) {
	d.rows = copyOrder(d.rows, o)
	for len(d.saved) < len(o) {
		d.saved = append(d.saved, make([]int, 0, jobs))
	}
	d.dirty = d.dirty[:0]
}

// begin starts a change.
func (d *draft) begin() { d.dirty = d.dirty[:0] }

// touch saves a row before it changes.
func (d *draft) touch(i int) {
	for _, have := range d.dirty {
		if have == i {
			return
		}
	}
	d.dirty = append(d.dirty, i)
	d.saved[i] = append(d.saved[i][:0], d.rows[i]...)
}

// undo takes back everything since begin.
func (d *draft) undo() {
	for _, i := range d.dirty {
		d.rows[i] = append(d.rows[i][:0], d.saved[i]...)
	}
}

// lookUp is the machine and place of a job; false when it is not in the order.
func (d *draft) lookUp(job int) (machine, place int, ok bool) {
	for i, row := range d.rows {
		if n := slices.Index(row, job); n >= 0 {
			return i, n, true
		}
	}
	return 0, 0, false
}

// find is lookUp for a job that must be there.
func (d *draft) find(job int) (machine, place int) {
	machine, place, ok := d.lookUp(job)
	if !ok {
		panic("schedule: a job is missing from the order")
	}
	return machine, place
}

// copyOrder copies from into to, in to's memory where it suffices.
func copyOrder(to, from Order) Order {
	for len(to) < len(from) {
		to = append(to, nil)
	}
	for i := range from {
		to[i] = append(to[i][:0], from[i]...)
	}
	return to
}
