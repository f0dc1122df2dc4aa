package main

import (
	"bufio"
	"fmt"
	"io"

	"foldwright/internal/schedule"
)

// linear writes a problem where only the makespan counts as a mixed-integer linear program, in the LP format that general
// solvers read. Machines work without end and have no racks; jobs have no releases, precedences and tools.
//
// The model is the usual one (E. Vallada and R. Ruiz, European Journal of Operational Research 211 (2011) 612–622), with
// what each machine works in the place of times (O. Avalos-Rosales, F. Angel-Bello and A. Alvarez, International Journal of
// Advanced Manufacturing Technology 76 (2015) 1705–1718). x_i_j_k is 1 when machine i does job k directly after job j; the
// number after the last job stands for the start where it is j and for the end where it is k. What the machines do goes in
// no circles because of the ranks u_j (C. E. Miller, A. W. Tucker and R. A. Zemlin, Journal of the ACM 7 (1960) 326–329).
type linear struct {
	*schedule.Problem
	out   *bufio.Writer
	terms int // in the row so far
}

// writeModel writes the linear program of a problem.
func writeModel(out io.Writer, p *schedule.Problem) error {
	l := &linear{Problem: p, out: bufio.NewWriter(out)}
	l.print("Min\n cost: makespan\nSubject To\n")
	for k := range p.Jobs {
		l.done(k)
	}
	for i := range p.Machines {
		l.machine(i)
	}
	for j := range p.Jobs {
		for k := range p.Jobs {
			if j != k {
				l.ranks(j, k)
			}
		}
	}
	l.print("Binary\n")
	for i := range p.Machines {
		for j := range len(p.Jobs) + 1 {
			for k := range len(p.Jobs) + 1 {
				if l.may(i, j, k) {
					l.print(" x_%d_%d_%d\n", i, j, k)
				}
			}
		}
	}
	l.print("End\n")
	return l.out.Flush() // which also tells of earlier faults
}

func (l *linear) print(format string, args ...any) { fmt.Fprintf(l.out, format, args...) }

// may says whether machine i can do k directly after j.
func (l *linear) may(i, j, k int) bool {
	able := func(j int) bool { return j == len(l.Jobs) || l.Jobs[j].Run[i] >= 0 }
	return j != k && able(j) && able(k)
}

// arc adds a variable to the row; solvers may not take long lines.
func (l *linear) arc(factor int64, i, j, k int) {
	if !l.may(i, j, k) {
		return
	}
	if l.terms++; l.terms%8 == 0 {
		l.print("\n")
	}
	l.print(" %+d x_%d_%d_%d", factor, i, j, k)
}

// row begins a row.
func (l *linear) row(format string, args ...any) {
	l.terms = 0
	l.print(" "+format+":", args...)
}

// done: some machine does the job, once.
func (l *linear) done(k int) {
	l.row("done_%d", k)
	for i := range l.Machines {
		for j := range len(l.Jobs) + 1 {
			l.arc(1, i, j, k)
		}
	}
	l.print(" = 1\n")
}

// machine: something comes after each job that the machine does, it starts once at most, and it works no longer than the
// makespan.
func (l *linear) machine(i int) {
	n, able := len(l.Jobs), 0
	for j := range n {
		if l.Jobs[j].Run[i] < 0 {
			continue
		}
		able++
		l.row("flow_%d_%d", i, j)
		for k := range n + 1 {
			l.arc(1, i, k, j)
			l.arc(-1, i, j, k)
		}
		l.print(" = 0\n")
	}
	if able == 0 {
		return
	}
	l.row("start_%d", i)
	for k := range n {
		l.arc(1, i, n, k)
	}
	l.print(" <= 1\n")
	l.row("work_%d", i)
	for j := range n + 1 {
		for k := range n {
			l.arc(l.Setup[i][j][k]+l.Jobs[k].Run[i], i, j, k)
		}
	}
	l.print(" - makespan <= 0\n")
}

// ranks: a job that comes directly after another ranks higher.
func (l *linear) ranks(j, k int) {
	n := int64(len(l.Jobs))
	l.row("ranks_%d_%d", j, k)
	l.print(" u_%d - u_%d", k, j)
	for i := range l.Machines {
		l.arc(-n, i, j, k)
	}
	l.print(" >= %d\n", 1-n)
}
