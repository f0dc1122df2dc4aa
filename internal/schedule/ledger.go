package schedule

// ledger keeps the loose tools of each type over all of time.
//
// What is drawn counts from the beginning of time, what is given back only from its own instant. So every draw that the
// ledger grants leaves no moment with fewer than none, in whatever order draws and returns are entered: at any moment,
// the latest-entered draw up to then saw no more returns than have happened, and no fewer draws.
type ledger struct {
	total   []int   // of each type: at first, and all returns, without all draws
	newest  []int32 // of each type: its latest return in time, -1 when none
	returns []giveback
}

// giveback is tools that come loose, linked to the one before it in time of the same type.
type giveback struct {
	at     Time
	n      int
	before int32
}

func (l *ledger) reset(loose []int) {
	l.total = append(l.total[:0], loose...)
	l.newest = l.newest[:0]
	for range loose {
		l.newest = append(l.newest, -1)
	}
	l.returns = l.returns[:0]
}

// from is the first instant, not before the given one, from which n tools of the type are loose for good; Forever when
// they never are.
func (l *ledger) from(kind, n int, earliest Time) Time {
	have := l.total[kind]
	if have < n {
		return Forever
	}
	for i := l.newest[kind]; i >= 0; i = l.returns[i].before {
		r := &l.returns[i]
		if r.at <= earliest {
			break
		}
		if have -= r.n; have < n {
			return r.at
		}
	}
	return earliest
}

func (l *ledger) draw(kind, n int) { l.total[kind] -= n }

func (l *ledger) giveBack(kind, n int, at Time) {
	l.total[kind] += n
	link := &l.newest[kind]
	for *link >= 0 && l.returns[*link].at > at {
		link = &l.returns[*link].before
	}
	entry := giveback{at: at, n: n, before: *link}
	*link = int32(len(l.returns)) // before append, which may move what link points into
	l.returns = append(l.returns, entry)
}

// count is how many tools of a type the pattern takes.
func (p *Pattern) count(kind int) int {
	for _, c := range p.Tools {
		if c.Type == kind {
			return c.N
		}
	}
	return 0
}

// lacks is how many tools of c's type must be found to make of from a pattern that has c.
func (p *Pattern) lacks(c Count) int { return max(0, c.N-p.count(c.Type)) }
