package schedule

// Rows are forecast one by one, so a forecast does not see that a job waits for one in another row. It goes by turns instead: for
// each precedence an instant by which the job before should have ended and from which the one behind may begin. The last decoding
// sets it, in the middle between that end and that begin, so that both have some room.

// takeTurns sets the turns by an order just decoded. Jobs that it has left out keep theirs. Rows must then be laid anew.
func (o *outlook) takeTurns(d *decoder) {
	if len(o.turns) == 0 {
		return
	}
	for n, x := range o.Precedences {
		if ends, begins := d.end[x.Before], d.begun[x.After]; d.placed(x.Before) && d.placed(x.After) {
			o.turns[n] = ends + max(0, begins-ends)/2
		}
	}
	for i := range o.legs {
		o.turn(i)
	}
}

// turn lets the jobs of a machine go by the turns.
func (o *outlook) turn(i int) {
	legs, w := o.legs[i], &o.Weights
	for _, x := range o.Precedences {
		legs[x.Before].turn, legs[x.Before].push = Forever, 0
		if o.started[i] != x.After {
			legs[x.After].release = o.Jobs[x.After].Release
		}
	}
	for n, x := range o.Precedences {
		before, behind := &legs[x.Before], &legs[x.After]
		before.turn = min(before.turn, o.turns[n])
		before.push += max(w.Wait, w.Setup) + behind.weight // a machine waits, and the job behind becomes later
		if o.started[i] != x.After {
			behind.release = max(behind.release, o.turns[n])
		}
	}
}
