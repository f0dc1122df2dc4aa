package plan

import "time"

// Bound is a make-ready that no order with all jobs can undercut, held against a plan of this shop: 0 when the plan leaves out a
// job that some folder could run, since it then says nothing. It is worked out once, which takes some tenths of a second.
func (p *Prepared) Bound(pl *Plan) time.Duration {
	placed := 0
	for _, lane := range pl.Folders {
		placed += len(lane.Tasks)
	}
	if placed < len(p.jobs) {
		return 0
	}
	return p.bound()
}
