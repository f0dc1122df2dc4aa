package schedule

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// spread is the ground of several machines where only the makespan counts. Its height is the sum of the squares of what
// each machine works, which falls when the longest gets less and when set-ups are saved anywhere: the makespan alone is
// flat almost everywhere. A change is priced by the two machines that it touches.
type spread struct {
	*model
	arc  [][]Time // of each machine, by from and to: set-up and run of the later job; row len(Jobs) is the start
	able [][]int  // of each job: the machines that can run it, the quickest first

	rows Order
	load []Time // of each machine
	high int64

	touched   [2]int // machines of the last step, the same twice when it was one
	saved     [2][]int
	savedLoad [2]Time
	savedHigh int64
}

func newSpread(m *model) *spread {
	s := &spread{model: m, rows: make(Order, len(m.Machines)), load: make([]Time, len(m.Machines)), able: make([][]int, m.jobs)}
	for i := range m.Machines {
		arc := make([]Time, (m.jobs+1)*m.jobs)
		for to := range m.jobs {
			if m.Jobs[to].Run[i] < 0 {
				continue
			}
			s.able[to] = append(s.able[to], i)
			for from := range m.jobs + 1 {
				arc[from*m.jobs+to] = m.Setup[i][from][to] + m.Jobs[to].Run[i]
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
	s.high = 0
	for i := range s.rows {
		s.load[i] = s.work(i)
		s.high += s.load[i] * s.load[i]
	}
}

// work is what a machine does in all.
func (s *spread) work(i int) Time {
	last, sum := s.jobs, Time(0)
	for _, j := range s.rows[i] {
		sum += s.arc[i][last*s.jobs+j]
		last = j
	}
	return sum
}

// heats go by the mean work of a machine: a second more of it lifts the height by twice the mean.
func (s *spread) heats() (first, last int64) {
	var mean Time
	for _, load := range s.load {
		mean += load
	}
	mean /= Time(len(s.load))
	return mean * mean * one / 8, mean * mean * one / 30
}

func (s *spread) step(rng *rand.Rand) (rise int64) {
	s.savedHigh = s.high
	i := s.source(rng)
	a := rng.IntN(len(s.rows[i]))
	near := s.able[s.rows[i][a]]
	k := near[rng.IntN(1+rng.IntN(len(near)))]
	s.touch(0, i)
	s.touch(1, k)
	if rng.IntN(2) == 0 {
		s.pass(rng, i, a, k)
	} else {
		s.trade(rng, i, a, k)
	}
	s.reckon(i)
	s.reckon(k)
	return s.high - s.savedHigh
}

// source is four times in five the longest machine, otherwise any with a job.
func (s *spread) source(rng *rand.Rand) int {
	if rng.IntN(5) > 0 {
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
	for {
		if i := rng.IntN(len(s.rows)); len(s.rows[i]) > 0 {
			return i
		}
	}
}

func (s *spread) touch(side, i int) {
	s.touched[side], s.savedLoad[side] = i, s.load[i]
	s.saved[side] = append(s.saved[side][:0], s.rows[i]...)
}

// reckon brings a machine's load and the height up to date.
func (s *spread) reckon(i int) {
	s.high -= s.load[i] * s.load[i]
	s.load[i] = s.work(i)
	s.high += s.load[i] * s.load[i]
}

func (s *spread) undo() {
	for side, i := range s.touched {
		s.rows[i] = append(s.rows[i][:0], s.saved[side]...)
		s.load[i] = s.savedLoad[side]
	}
	s.high = s.savedHigh
}

// pass gives a job of machine i to machine k.
func (s *spread) pass(rng *rand.Rand, i, a, k int) {
	j := s.rows[i][a]
	s.rows[i] = slices.Delete(s.rows[i], a, a+1)
	s.put(rng, k, j)
}

// trade lets a job of machine i and one of machine k change sides.
func (s *spread) trade(rng *rand.Rand, i, a, k int) {
	if len(s.rows[k]) == 0 {
		return
	}
	b := rng.IntN(len(s.rows[k]))
	x, y := s.rows[i][a], s.rows[k][b]
	if s.Jobs[x].Run[k] < 0 || s.Jobs[y].Run[i] < 0 || x == y {
		return
	}
	if i == k {
		s.rows[i][a], s.rows[i][b] = y, x
		return
	}
	s.rows[i] = slices.Delete(s.rows[i], a, a+1)
	s.rows[k] = slices.Delete(s.rows[k], b, b+1)
	s.put(rng, k, x)
	s.put(rng, i, y)
}

// put gives a job to a machine: three times in four where it adds least, otherwise anywhere.
func (s *spread) put(rng *rand.Rand, k, j int) {
	at := rng.IntN(len(s.rows[k]) + 1)
	if rng.IntN(4) > 0 {
		at = s.bestPlace(k, j)
	}
	s.rows[k] = slices.Insert(s.rows[k], at, j)
}

func (s *spread) bestPlace(k, j int) int {
	arc, n, row := s.arc[k], s.jobs, s.rows[k]
	best, least, last := 0, Forever, n
	for at, x := range row {
		if more := arc[last*n+j] + arc[j*n+x] - arc[last*n+x]; more < least {
			best, least = at, more
		}
		last = x
	}
	if arc[last*n+j] < least {
		best = len(row)
	}
	return best
}
