package schedule

import "slices"

// draft is an order that moves change in place and that can be put back as it was before the last change.
type draft struct {
	rows  Order
	saved Order
	dirty []int  // machines whose row has been saved since begin
	seats []seat // of each job: where it stood when its row was noted last
}

// seat is a machine and a place in its row.
type seat struct{ machine, place int }

func (d *draft) set(o Order, jobs int) {
	d.rows = copyOrder(d.rows, o)
	for len(d.saved) < len(o) {
		d.saved = append(d.saved, make([]int, 0, jobs))
	}
	d.dirty = d.dirty[:0]
	d.seats = append(d.seats, make([]seat, jobs-len(d.seats))...)
	for i := range d.rows {
		d.note(i)
	}
}

// note remembers where the jobs of a row stand.
func (d *draft) note(i int) {
	for place, j := range d.rows[i] {
		d.seats[j] = seat{i, place}
	}
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

// find is lookUp for a job of the order, when nothing has been touched since the rows were noted.
func (d *draft) find(job int) (machine, place int) {
	s := d.seats[job]
	return s.machine, s.place
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
