package schedule

import "fmt"

// CheckOrder says what is wrong with an order: every job must be there once, on a machine that can run it, and the fixed
// jobs first. Whether it can be carried out is for [Decode] to find.
func (p *Problem) CheckOrder(order Order) error {
	if len(order) != len(p.Machines) {
		return fmt.Errorf("the order has rows for %d machines; there are %d", len(order), len(p.Machines))
	}
	seen := make([]bool, len(p.Jobs))
	left := len(p.Jobs)
	for i, row := range order {
		for _, j := range row {
			if j < 0 || j >= len(p.Jobs) {
				return fmt.Errorf("machine %d has job %d; there are %d jobs, counted from 0", i, j, len(p.Jobs))
			}
			if p.Jobs[j].Run[i] < 0 {
				return fmt.Errorf("machine %d has job %d, which it cannot run", i, j)
			}
			if seen[j] {
				return fmt.Errorf("job %d stands twice in the order; once is right", j)
			}
			seen[j] = true
			left--
		}
		for n, j := range p.Machines[i].Fixed {
			if n >= len(row) || row[n] != j {
				return fmt.Errorf("machine %d must begin with its fixed jobs %v", i, p.Machines[i].Fixed)
			}
		}
	}
	if left > 0 {
		for j := range seen {
			if !seen[j] {
				return fmt.Errorf("job %d is missing from the order, with %d others; every job must be there", j, left-1)
			}
		}
	}
	return nil
}
