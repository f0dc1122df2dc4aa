package schedule

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// spread is the ground of several machines where only the makespan counts. The makespan alone is flat almost everywhere,
// so the height is the sum of a steep power of what each machine works: it falls when the longest gets less, and when
// set-ups are saved anywhere. A step gives a few jobs to another machine (spreadpass.go) or lets two change sides
// (spreadtrade.go); it is priced by the arcs it touches and made only when it stays.
type spread struct {
	*model
	width int
	arc   [][]Time // of each machine, by from and to: set-up and run of the later job; row len(Jobs) is the start, column len(Jobs) the end
	able  [][]int  // of each job: the machines that can run it, the quickest first

	rows    Order
	machine []int   // of each job
	load    []Time  // of each machine
	lifts   []int64 // of each machine: what its load adds to the height
	mean    Time    // load that lifts by fine
}

func newSpread(m *model) *spread {
	s := &spread{
		model: m, width: m.jobs + 1, rows: make(Order, len(m.Machines)), able: make([][]int, m.jobs),
		machine: make([]int, m.jobs), load: make([]Time, len(m.Machines)), lifts: make([]int64, len(m.Machines)),
	}
	for i := range m.Machines {
		arc := make([]Time, s.width*s.width)
		for to := range m.jobs {
			if m.Jobs[to].Run[i] < 0 {
				continue
			}
			s.able[to] = append(s.able[to], i)
			for from := range m.jobs + 1 {
				arc[from*s.width+to] = m.Setup[i][from][to] + m.Jobs[to].Run[i]
			}
		}
		s.arc = append(s.arc, arc)
	}
	for j, able := range s.able {
		slices.SortStableFunc(able, func(a, b int) int { return cmp.Compare(m.Jobs[j].Run[a], m.Jobs[j].Run[b]) })
	}
	return s
}

func (s *spread) order() Order { return s.rows }
func (s *spread) total() int64 { return s.Weights.Makespan * slices.Max(s.load) }

func (s *spread) set(order Order) {
	s.rows = copyOrder(s.rows, order)
	for i, row := range s.rows {
		last := s.jobs
		s.load[i] = 0
		for _, j := range row {
			s.load[i] += s.arc[i][last*s.width+j]
			s.machine[j], last = i, j
		}
	}
	s.scale()
}

// fine is what the mean load lifts by: the parts that heights are counted in.
const (
	fine  = 1 << 20
	power = 4
)

// lift is what a load adds to the height: its power, in means; beyond three of them it goes on straight.
func (s *spread) lift(load Time) int64 {
	x := load * fine / s.mean
	beyond := max(0, x-3*fine)
	x -= beyond
	x = x * x / fine
	return x*x/fine + beyond*power*27
}

// scale measures heights by the mean load as it is now.
func (s *spread) scale() {
	var sum Time
	for _, load := range s.load {
		sum += load
	}
	s.mean = max(1, sum/Time(len(s.load)))
	for i, load := range s.load {
		s.lifts[i] = s.lift(load)
	}
}

// heats are three quarters of the mean time that a job takes a machine, and a twenty-fifth of it. With fewer than
// 15 jobs the first is more: each is a large part of a machine's work then, and no change is small.
func (s *spread) heats() (first, last int64) {
	s.scale()
	job := power * fine * int64(len(s.load)) * one / int64(s.jobs) // the height of such a time
	few := 1 + 200/int64(s.jobs*s.jobs)
	return job * 3 / 4 * few, job / 25
}

func (s *spread) step(rng *rand.Rand, heat int64) bool {
	bar := slip(rng, heat)
	i := s.source(rng)
	a := rng.IntN(len(s.rows[i]))
	near := s.able[s.rows[i][a]]
	k := near[rng.IntN(1+rng.IntN(len(near)))]
	switch rng.IntN(8) {
	case 0, 1, 2:
		return s.pass(rng, i, a, 1, k, bar)
	case 3:
		return s.pass(rng, i, a, 2+rng.IntN(2), k, bar)
	default:
		return s.trade(rng, i, a, k, bar)
	}
}

// source is more often than not the longest machine, otherwise any with a job, by the number of its jobs.
func (s *spread) source(rng *rand.Rand) int {
	if rng.IntN(5) < 3 {
		longest := 0
		for i, load := range s.load {
			if load > s.load[longest] {
				longest = i
			}
		}
		if len(s.rows[longest]) > 0 {
			return longest
		}
	}
	return s.machine[rng.IntN(s.jobs)]
}

// at is the job at a place of a machine; the start before the first, the end after the last.
func (s *spread) at(i, place int) int {
	if place < 0 || place >= len(s.rows[i]) {
		return s.jobs
	}
	return s.rows[i][place]
}

// into is what jobs from first to last add on a machine between two others, less what lies between them.
func (s *spread) into(i, before, first, last, after int) Time {
	arc := s.arc[i]
	return arc[before*s.width+first] + arc[last*s.width+after] - arc[before*s.width+after]
}

// along is what the later ones of jobs in a row take on a machine.
func (s *spread) along(i int, jobs []int) Time {
	var sum Time
	for n := 1; n < len(jobs); n++ {
		sum += s.arc[i][jobs[n-1]*s.width+jobs[n]]
	}
	return sum
}

// settle gives two machines their new loads, unless the height rises by more than the bar.
func (s *spread) settle(i int, loadI Time, k int, loadK Time, bar int64) bool {
	upI, upK := s.lift(loadI), s.lift(loadK)
	if upI+upK-s.lifts[i]-s.lifts[k] > bar {
		return false
	}
	s.load[i], s.load[k], s.lifts[i], s.lifts[k] = loadI, loadK, upI, upK
	return true
}

// settleOne does the same for one machine.
func (s *spread) settleOne(i int, load Time, bar int64) bool {
	up := s.lift(load)
	if up-s.lifts[i] > bar {
		return false
	}
	s.load[i], s.lifts[i] = load, up
	return true
}
