package schedule

import "slices"

// screen spares decoding changes that can hardly stay. It forecasts what a row costs when every set-up is the least and
// nothing waits for tools or other machines, which takes a fiftieth of decoding; a change that the forecast puts further up
// than nearly all that would stay is not looked at any further. How far up those are is learned from one change in twenty,
// which is decoded whatever its forecast: learned from all, the screen would close by itself.
type screen struct {
	*model
	arcs    *arcs
	rows    []forecast // of each machine
	now     []forecast // of the rows changed at hand
	setups  Time       // of all rows
	more    Time       // what the change at hand adds to them
	rise    int64      // what it adds to the price
	passing int64      // what passes
	free    bool       // the change at hand is decoded in any case
	kept    []int64    // rises of the latest free changes that stayed
}

// forecast is what a row comes to at the least: set-up seconds, and the price with lateness.
type forecast struct {
	setups Time
	price  int64
}

const (
	screenSample = 30
	screenPass   = 27 // of a sample
	screenFree   = 20
)

func newScreen(m *model, a *arcs) screen { return screen{model: m, arcs: a, passing: hopeless} }

// lay forecasts all rows anew, and lets everything pass until enough changes have stayed.
func (s *screen) lay(rows Order) {
	s.rows, s.setups, s.kept, s.passing = s.rows[:0], 0, s.kept[:0], hopeless
	for i, row := range rows {
		s.rows = append(s.rows, s.forecast(i, row))
		s.setups += s.rows[i].setups
	}
}

// passes forecasts a change of some rows and says whether it is worth decoding.
func (s *screen) passes(rows Order, changed []int, luck uint64) bool {
	s.more, s.rise, s.now = 0, 0, s.now[:0]
	for _, i := range changed {
		f := s.forecast(i, rows[i])
		s.now = append(s.now, f)
		s.more += f.setups - s.rows[i].setups
		s.rise += f.price - s.rows[i].price
	}
	s.free = luck%screenFree == 0
	return s.free || s.rise <= s.passing
}

// keep notes that the change at hand stays.
func (s *screen) keep(changed []int) {
	for n, i := range changed {
		s.rows[i] = s.now[n]
	}
	s.setups += s.more
	if !s.free && s.passing < hopeless {
		return
	}
	if s.kept = append(s.kept, s.rise); len(s.kept) == screenSample {
		slices.Sort(s.kept)
		s.passing = max(0, s.kept[screenPass])
		s.kept = s.kept[:0]
	}
}

func (s *screen) forecast(i int, row []int) forecast {
	var f forecast
	var late int64
	arcs, shifts, last, at := s.arcs.from[i], &s.shifts[i], s.jobs, Time(0)
	for _, j := range row {
		job := &s.Jobs[j]
		setup := arcs[last*s.jobs+j]
		f.setups += setup
		at = min(Forever, shifts.finish(shifts.next(max(at, job.Release)), setup+job.Run[i]))
		if at < Forever { // otherwise decoding tells that it finds no place
			late += job.Weight * max(0, at-job.Due)
		}
		last = j
	}
	f.price = late*s.Weights.Late + f.setups*s.Weights.Setup
	return f
}
