package schedule

import "slices"

// finest is the cheapest of the orders that searches have stood at, the cheapest first. One that is a little dearer
// by the rules may be the cheapest once it is refined.
type finest struct {
	most int
	all  []priced
}

// mostFine orders are kept where there are so few jobs that all can be refined.
const mostFine = 32

func (f *finest) add(order Order, cost Cost) {
	if len(f.all) == f.most && (f.most == 0 || !cost.Less(last(f.all).cost)) {
		return
	}
	at := len(f.all)
	for at > 0 && cost.Less(f.all[at-1].cost) {
		at--
	}
	for n := at; n > 0 && f.all[n-1].cost == cost; n-- {
		if slices.EqualFunc(f.all[n-1].order, order, slices.Equal[[]int]) {
			return
		}
	}
	f.all = slices.Insert(f.all, at, priced{order.Clone(), cost})
	f.all = f.all[:min(len(f.all), f.most)]
}

// refined is the cheapest plan of the finest orders and the one given, with its order. Where there are several, a look at each tells
// which to refine.
func (t *team) refined(p *Problem) (Order, *Plan) {
	order := t.pool[0].order
	fine := finest{most: mostFine}
	fine.add(order, t.pool[0].cost)
	for _, s := range t.seekers {
		for _, o := range s.others() {
			fine.add(o.order, o.cost)
		}
	}
	if len(fine.all) > 1 {
		d := newDecoder(t.model)
		for n := range fine.all {
			fine.all[n].cost = d.refine(fine.all[n].order, nil, aLook)
		}
		order = slices.MinFunc(fine.all, func(a, b priced) int { return a.cost.Compare(b.cost) }).order
	}
	plan := Refine(p, order, nil)
	if t.given != nil {
		given := NewDecoder(p).Follow(t.options.Wishes)
		if given.Cost(t.given).Less(plan.Cost) {
			order, plan = t.given, Refine(p, t.given, t.options.Wishes)
		}
	}
	return order.Clone(), plan
}
