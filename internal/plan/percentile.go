package plan

import (
	"fmt"
	"math"
	"slices"

	"foldwright/internal/changeover"
	"foldwright/internal/fault"
	"foldwright/internal/schedule"
	"foldwright/internal/words"
)

// CodePercentile is the code of a percentile that cannot be planned with.
const CodePercentile fault.Code = "percentile"

// The percentiles that can be planned with: below the middle a plan would count on luck, and nothing is certain.
const (
	percentileLeast = 50
	percentileMost  = 99
)

// At is the same shop with minutes that suffice in so many of 100 cases, by the shop's spread: every make-ready, run and
// piece of bench work takes that much longer than in the middle, and each make-ready has a line that says by how much. 50 is
// the middle itself. The order given stays the same.
func (p *Prepared) At(percentile int) (*Prepared, error) {
	if percentile < percentileLeast || percentile > percentileMost {
		return nil, fault.Fault{
			Code: CodePercentile, Field: "percentile", Wrong: fmt.Sprintf("a plan for %d of 100 cases", percentile),
			Right: fmt.Sprintf("%d to %d", percentileLeast, percentileMost),
		}
	}
	base := p.root()
	t := base.stretched(percentile)
	if err := t.problem.Check(); err != nil {
		return nil, err
	}
	return withGiven(&Prepared{translation: t, base: base}, p.given.order, p.given.Wishes), nil
}

// root is the shop with the minutes in the middle.
func (p *Prepared) root() *Prepared {
	if p.base != nil {
		return p.base
	}
	return p
}

// as is the shop with the minutes that a plan was made with.
func (p *Prepared) as(pl *Plan) (*Prepared, error) {
	switch pl.Percentile {
	case p.percentile:
		return p, nil
	case 0:
		return p.root(), nil
	}
	return p.At(pl.Percentile)
}

// stretched is the translation with every time as long as the percentile wants it.
func (t *translation) stretched(percentile int) *translation {
	out := *t
	out.percentile = percentile
	z := math.Sqrt2 * math.Erfinv(2*float64(percentile)/100-1) // of the normal distribution
	by := func(spread float64) stretch {
		return stretch(math.Round(1000 * math.Exp(z*sigmaOf(spread))))
	}
	spread := t.shop.House.Spread
	ready, running, bench := by(spread.Makeready), by(spread.Run), by(spread.Bench)
	problem := *t.problem
	problem.Machines = slices.Clone(problem.Machines)
	problem.Jobs = slices.Clone(problem.Jobs)
	for j := range problem.Jobs {
		problem.Jobs[j].Run = running.row(problem.Jobs[j].Run)
	}
	problem.Setup = make([][][]schedule.Time, len(t.problem.Setup))
	for m := range problem.Setup {
		problem.Setup[m] = ready.rows(t.problem.Setup[m])
	}
	problem.Tools = stretchTools(t.problem.Tools, ready, bench)
	out.problem = &problem
	out.extendWindows()
	return &out
}

func stretchTools(tools *schedule.Tooling, ready, bench stretch) *schedule.Tooling {
	out := *tools
	out.Stations, out.Units, out.People = slices.Clone(tools.Stations), slices.Clone(tools.Units), slices.Clone(tools.People)
	for k := range out.Stations {
		st := &out.Stations[k]
		st.Swap, st.Access = ready.of(st.Swap), ready.of(st.Access)
	}
	for u := range out.Units {
		out.Units[u].GuideMove = ready.of(out.Units[u].GuideMove)
	}
	out.InFolder, out.OnBench = ready.rows(tools.InFolder), bench.rows(tools.OnBench)
	return &out
}

// stretch makes times longer, in thousandths.
type stretch int64

// of stretches a time; what cannot be done at all stays so.
func (s stretch) of(t schedule.Time) schedule.Time {
	if t <= 0 {
		return t
	}
	return (t*int64(s) + 500) / 1000
}

func (s stretch) row(times []schedule.Time) []schedule.Time {
	out := make([]schedule.Time, len(times))
	for i, t := range times {
		out[i] = s.of(t)
	}
	return out
}

func (s stretch) rows(times [][]schedule.Time) [][]schedule.Time {
	out := make([][]schedule.Time, len(times))
	for i := range times {
		out[i] = s.row(times[i])
	}
	return out
}

// reserve is the line for what a make-ready takes longer than in the middle.
func (t *translation) reserve(lines []changeover.Line, setup schedule.Time) []changeover.Line {
	more := setup - wholeSeconds(changeover.Sum(lines))
	if t.percentile == 0 || more <= 0 {
		return lines
	}
	return append(lines, changeover.Line{What: words.T("reserve"), Why: words.T("enough in %d of 100 cases", t.percentile), Time: duration(more)})
}
