package schedule

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Between any two jobs the table by kinds holds what there is to be done at least between these very jobs, and jobs that are the same
// but for their times are of one kind.
func TestArcsByKinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapidDice(t)
		p := anyShape(d).draw(d)
		n := len(p.Jobs)
		if d(0, 1) == 0 {
			level(p) // then only what they want tells jobs apart
		}
		twins(p)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		m := newModel(p)
		a, l := newArcs(m), newLeast(m)
		for i := range p.Machines {
			for to := range p.Jobs {
				for from := range m.jobs + 1 {
					if from == to || p.Jobs[to].Run[i] < 0 || from < m.jobs && p.Jobs[from].Run[i] < 0 {
						continue
					}
					if got, want := a.at(i, from, to), l.arc(i, from, to); got != want {
						t.Fatalf("machine %d, job %d after %d: %d by kinds, %d for the two", i, to, from, got, want)
					}
				}
			}
			for j := range n {
				if of := a.kinds[i].of; of[j] != of[n+j] && m.started[i] != j {
					t.Fatalf("machine %d: job %d is of kind %d, its twin of kind %d", i, j, of[j], of[n+j])
				}
			}
		}
	})
}

// level makes all set-ups of the table the same.
func level(p *Problem) {
	for _, set := range p.Setup {
		for _, row := range set {
			for to := range row {
				row[to] = 60
			}
		}
	}
}

// twins gives every job of a problem a twin behind all jobs: the same set-ups, wants and needs, due later.
func twins(p *Problem) {
	n := len(p.Jobs)
	for _, j := range slices.Clone(p.Jobs) {
		j.Due++
		p.Jobs = append(p.Jobs, j)
	}
	for i, set := range p.Setup {
		var table [][]Time
		for from := range 2*n + 1 {
			row := set[n]
			if from < 2*n {
				row = set[from%n]
			}
			table = append(table, slices.Concat(row, row))
		}
		p.Setup[i] = table
	}
	for i, row := range p.Closing {
		p.Closing[i] = slices.Concat(row, row)
	}
	for i := range p.Racks {
		p.Racks[i].Needs = slices.Concat(p.Racks[i].Needs, p.Racks[i].Needs)
	}
	if p.Tools != nil {
		p.Tools.Wants = slices.Concat(p.Tools.Wants, p.Tools.Wants)
	}
}
