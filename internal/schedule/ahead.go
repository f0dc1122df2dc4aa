package schedule

// withNext is where a guide that moves goes when the machine's next jobs are thought of, too: at g where they are served
// there as well, otherwise into the middle of what serves as many of them in a row as can be. What a next job finds at
// a station is taken to be what the task at hand leaves there, or the job's own pattern where that would not serve.
func (d *decoder) withNext(i int, g int64) int64 {
	room := span{AnywhereLo, AnywhereHi}
	for _, next := range d.order[i][d.place[i]:] {
		both := d.roomFor(next, room)
		if both.empty() {
			break
		}
		room = both
	}
	if room.has(g) || room.lo == AnywhereLo || room.hi == AnywhereHi {
		return room.clamp(g)
	}
	return room.lo + (room.hi-room.lo)/2
}

// roomFor is what is left of a range of guide positions when a job is to be served, too.
func (d *decoder) roomFor(j int, room span) span {
	for c := range d.trial {
		w := d.want(j, d.trial[c].station)
		if w.any {
			continue
		}
		fit := d.fit(w, w.pattern)
		if there := d.trial[c].to; there >= 0 && !d.fit(w, there).empty() {
			fit = d.fit(w, there)
		}
		room = room.meet(fit)
	}
	return room
}

// lasts is how many of a machine's next jobs in a row a pattern serves at a station, wherever the guide.
func (d *decoder) lasts(i, k, pattern int) int {
	n := 0
	for _, next := range d.order[i][d.place[i]+1:] {
		if w := d.want(next, k); !w.any {
			if d.fit(w, pattern).empty() {
				break
			}
			n++
		}
	}
	return n
}
