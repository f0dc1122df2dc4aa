package schedule

// improve makes exchanges that pay until there are none near the nodes to be looked at.
func (t *tour) improve() {
	for len(t.queue) > 0 {
		x := t.queue[len(t.queue)-1]
		t.queue = t.queue[:len(t.queue)-1]
		t.waits[x] = false
		if e := t.exchange(x); e.gain > 0 {
			t.swap(e.a, e.b, e.c)
			t.push(x)
		}
	}
}

// exchange is an exchange of two neighbouring stretches and what it saves.
type exchange struct {
	swap
	gain Time
}

// exchange is the best exchange that gives a node a cheaper successor or predecessor.
func (t *tour) exchange(x int32) exchange {
	var best exchange
	next, prior := t.next(x), t.prior(x)
	for _, y := range t.near[0][x] {
		if t.price(x, y) >= t.price(x, next) {
			break
		}
		t.closeUp(x, y, &best)
	}
	for _, y := range t.near[1][x] {
		if t.price(y, x) >= t.price(prior, x) {
			break
		}
		t.closeUp(y, x, &best)
	}
	return best
}

// closeUp looks for the third arc to give up when u is to be followed by v. The arcs u–u1 and v1–v go; of the nodes w from
// v on to before u one loses its successor w1, and the new arcs are u–v, w–u1 and v1–w1.
func (t *tour) closeUp(u, v int32, best *exchange) {
	u1, v1 := t.next(u), t.prior(v)
	gain := t.price(u, u1) + t.price(v1, v) - t.price(u, v)
	for _, w := range t.near[1][u1] {
		if gain <= t.price(w, u1) {
			break
		}
		t.offer(u, v, v1, w, gain-t.price(w, u1), best)
	}
	for _, w1 := range t.near[0][v1] {
		if gain <= t.price(v1, w1) {
			break
		}
		w := t.prior(w1)
		t.offer(u, v, v1, w, gain-t.price(w, u1), best)
	}
}

// offer takes the exchange when it saves more than the best and precedences allow it.
func (t *tour) offer(u, v, v1, w int32, gain Time, best *exchange) {
	w1 := t.next(w)
	if gain += t.price(w, w1) - t.price(v1, w1); gain <= best.gain || !t.within(w, v, u) {
		return
	}
	// The three arcs that go, by place, bound the two stretches.
	a, b, c := t.place[u]+1, t.place[v1]+1, t.place[w]+1
	if a > b {
		a, b = b, a
	}
	if b > c {
		b, c = c, b
	}
	if a > b {
		a, b = b, a
	}
	if t.allowed(a, b, c) {
		*best = exchange{swap{a, b, c}, gain}
	}
}

// within says whether w lies on the way from v to before u.
func (t *tour) within(w, v, u int32) bool {
	p, q, r := t.place[w], t.place[v], t.place[u]
	if q <= r {
		return q <= p && p < r
	}
	return p >= q || p < r
}
