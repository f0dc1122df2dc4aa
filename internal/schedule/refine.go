package schedule

import "slices"

// Refine makes a plan of an order as [Decode] does, granting the wishes, and then lets more tasks take dearer ways to their tools —
// another set to swap in or to build, one to wait for, a guide moved early — as long as that makes the whole plan cheaper, one alone or two
// together. It tries so many plans that any order takes about as long as decoding 200 000 tasks. It is never dearer than what it
// starts from, and what the plan does not need is not among its wishes.
func Refine(p *Problem, order Order, wishes []Wish) *Plan {
	d := newDecoder(newModel(p))
	d.refine(order, wishes, effort)
	return d.write(order)
}

// How many tasks are decoded, about, to refine an order, and to see what that would come to.
const (
	effort = 200_000
	aLook  = 20_000
)

// refine leaves the decoder with the wishes that it has found.
func (d *decoder) refine(order Order, wishes []Wish, tasks int) Cost {
	d.follow(wishes)
	r := &refiner{decoder: d, order: order, least: d.decode(order, nil), left: tasks / max(1, d.jobs)}
	r.singly()
	for r.inPairs() {
		r.singly()
	}
	r.forget()
	return r.least
}

// refiner looks for wishes that make the plan of an order cheaper.
type refiner struct {
	*decoder
	order Order
	least Cost
	left  int // plans that may be tried
}

// singly tries one wish after another until none pays.
func (r *refiner) singly() {
	for r.pass() {
	}
}

// inPairs tries wishes that do not pay by themselves, each with a second one; false when no two pay.
func (r *refiner) inPairs() bool {
	for _, first := range r.ways() {
		before := r.wishes.add(first)
		if r.pass() {
			return true
		}
		r.wishes[first.Job] = before
	}
	return false
}

// pass tries every way once, and keeps those that pay.
func (r *refiner) pass() (better bool) {
	for _, way := range r.ways() {
		if r.left == 0 {
			break
		}
		before := r.wishes.add(way)
		r.left--
		if cost := r.decode(r.order, nil); cost.Less(r.least) {
			r.least, better = cost, true
		} else {
			r.wishes[way.Job] = before
		}
	}
	return better
}

// ways are what tasks could wish as the plan stands; none when no more plans may be tried.
func (r *refiner) ways() []Wish {
	if r.Tools == nil || r.left == 0 {
		return nil
	}
	r.left--
	r.survey = &survey{}
	r.decode(r.order, nil)
	ways := r.survey.ways()
	r.survey = nil
	return ways
}

// forget drops the wishes without which the plan is no dearer.
func (r *refiner) forget() {
	for j, all := range r.wishes {
		for n := len(all) - 1; n >= 0; n-- {
			before := r.wishes[j]
			r.wishes[j] = slices.Delete(slices.Clone(before), n, n+1)
			if cost := r.decode(r.order, nil); r.least.Less(cost) {
				r.wishes[j] = before
			} else {
				r.least = cost
			}
		}
	}
}
