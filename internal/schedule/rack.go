package schedule

// racks is what must be brought to the machines' racks for one order. It counts on every job of the order having its
// place: what would be brought for a job that is left out is brought all the same.
type racks struct {
	gaps    []*gaps // of each machine, nil without a rack
	loads   []Time  // of each job: working seconds
	brought [][]int // of each job
}

func newRacks(p *Problem) *racks {
	r := &racks{loads: make([]Time, len(p.Jobs)), brought: make([][]int, len(p.Jobs))}
	for i := range p.Racks {
		var g *gaps
		if p.Racks[i].Places > 0 {
			g = newGaps(p.reached(i), p.Racks[i].Places)
		}
		r.gaps = append(r.gaps, g)
	}
	return r
}

// reached is the needs of the jobs that a machine can run.
func (p *Problem) reached(i int) [][]int {
	var needs [][]int
	for j, sets := range p.Racks[i].Needs {
		if p.Jobs[j].Run[i] >= 0 {
			needs = append(needs, sets)
		}
	}
	return needs
}

// lay works out the loads of all jobs of an order. The first sets fill empty places: a set goes only when all are taken.
func (r *racks) lay(p *Problem, order Order) {
	for i, g := range r.gaps {
		if g == nil {
			r.forget(order[i])
			continue
		}
		g.reset()
		empty := p.Racks[i].Places
		for _, j := range order[i] {
			sets := g.bring(p.Racks[i].Needs[j])
			r.brought[j] = append(r.brought[j][:0], sets...)
			r.loads[j] = Time(max(0, len(sets)-empty)) * p.Racks[i].Load
			empty = max(0, empty-len(sets))
		}
	}
}

// forget is for jobs on a machine without a rack, which may have stood at another before.
func (r *racks) forget(row []int) {
	for _, j := range row {
		r.loads[j], r.brought[j] = 0, r.brought[j][:0]
	}
}
