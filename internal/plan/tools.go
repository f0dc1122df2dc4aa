package plan

import (
	"time"

	"foldwright/internal/schedule"
	"foldwright/internal/settings"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// notKnown is a guide position far off any shaft: a guide that stands nobody knows where must be set for the next job
// that the sheet passes it for. It lies inside schedule.AnywhereLo to AnywhereHi, so that other jobs leave it be.
const notKnown = schedule.AnywhereLo

// exact is the tolerance of work on sets. Afterwards a set counts as the very pattern it was built for, so a tool that is
// a little off has to be slid: errors that were let pass would add up from build to build.
const exact units.Length = 0

// tooling lists everything about tools. Guide positions are in nanometres.
func (t *translation) tooling() *schedule.Tooling {
	t.patterns = newPatterns(t.shop.Classes)
	out := &schedule.Tooling{
		Classes:  len(t.shop.Classes),
		Sets:     t.sets(),
		Stations: t.stationList(),
		Units:    t.unitList(),
		People:   make([]schedule.Person, len(t.shop.Bench)),
	}
	own := t.ownPatterns()
	out.Patterns = t.patterns.counts
	out.Wants = t.wants(own)
	out.InFolder, out.OnBench = t.conversions(own)
	out.Loose = t.loose()
	return out
}

// sets lists the sets with their patterns and places.
func (t *translation) sets() []schedule.Set {
	out := make([]schedule.Set, len(t.shop.Sets))
	for i, s := range t.shop.Sets {
		out[i] = schedule.Set{
			Class:   t.patterns.classes[s.Class],
			Pattern: t.patterns.number(s.Pattern()),
			Station: t.stationNumber(s.Place),
		}
	}
	return out
}

// stationNumber is the station a set is mounted in; -1 when it is on the rack or the bench.
func (t *translation) stationNumber(p tooling.Place) int {
	for k, ref := range t.stations {
		if t.folder(ref.folder).Name == p.Folder && t.station(k).Name == p.Station {
			return k
		}
	}
	return -1
}

// stationList lists the stations with the time a swap and the way to the shafts take.
func (t *translation) stationList() []schedule.Station {
	out := make([]schedule.Station, len(t.stations))
	for k, ref := range t.stations {
		st := t.station(k)
		out[k] = schedule.Station{
			Machine: ref.folder,
			Unit:    ref.number,
			Class:   t.patterns.classes[st.Class],
			Swap:    wholeSeconds(t.shop.Standards.Swap(*st)),
			Access:  wholeSeconds(t.shop.Standards.Access(*st)),
		}
	}
	return out
}

// unitList lists the units that have stations, with their guides.
func (t *translation) unitList() []schedule.Unit {
	out := make([]schedule.Unit, len(t.units))
	for n, ref := range t.units {
		out[n] = schedule.Unit{
			Machine:   ref.folder,
			GuideMove: wholeSeconds(t.shop.Standards.GuideMove()),
			GuideAt:   t.guideNow(ref),
		}
	}
	return out
}

// guideNow is where a guide stands at the start: where the shop says, else where the present job has it.
func (t *translation) guideNow(ref unitRef) int64 {
	now := t.present[ref.folder]
	if now != nil && passes(now, ref.unit) {
		return int64(now.Units[ref.unit].Guide.At)
	}
	if at, ok := t.guideTold(ref.folder, ref.unit); ok {
		return int64(at)
	}
	return notKnown
}

// guideTold is where the shop says that the guide of a unit stands.
func (t *translation) guideTold(m, u int) (units.Length, bool) {
	if state, ok := t.shop.State(t.folder(m).Name); ok {
		for _, g := range state.Guides {
			if g.Unit == u+1 {
				return g.At, true
			}
		}
	}
	return 0, false
}

// ownPatterns numbers what each job would build or fit for itself at each station; -1 where it has no use for one.
func (t *translation) ownPatterns() [][]int {
	out := make([][]int, len(t.jobs))
	for j := range t.jobs {
		out[j] = make([]int, len(t.stations))
		for k := range t.stations {
			out[j][k] = -1
			if _, st := t.wanted(j, k); st != nil {
				out[j][k] = t.patterns.number(st.Pattern())
			}
		}
	}
	return out
}

// wanted is how the unit of a station and the station itself are set for a job; nil where the job cannot run.
func (t *translation) wanted(j, k int) (*settings.Unit, *settings.Station) {
	ref := t.stations[k]
	way := t.ways[j][ref.folder]
	if way == nil {
		return nil, nil
	}
	u := &way.Units[ref.unit]
	name := t.station(k).Name
	for i := range u.Stations {
		if u.Stations[i].Name == name {
			return u, &u.Stations[i]
		}
	}
	return u, &settings.Station{Name: name, Class: t.station(k).Class}
}

// wants tells for every job and station what serves.
func (t *translation) wants(own [][]int) [][]schedule.Want {
	out := make([][]schedule.Want, len(t.jobs))
	for j := range t.jobs {
		out[j] = make([]schedule.Want, len(t.stations))
		for k := range t.stations {
			switch u, st := t.wanted(j, k); {
			case st == nil: // the job cannot run there
			case !passes(t.ways[j][t.stations[k].folder], t.stations[k].unit):
				out[j][k] = schedule.Want{Any: true}
			default:
				out[j][k] = schedule.Want{Pattern: own[j][k], Guide: int64(u.Guide.At), Fits: t.fitsOf(u, st)}
			}
		}
	}
	return out
}

// fitsOf lists the patterns that serve, ascending, with the guide positions at which they do.
func (t *translation) fitsOf(u *settings.Unit, st *settings.Station) []schedule.Fit {
	var out []schedule.Fit
	for _, p := range t.patterns.byClass[t.patterns.classes[st.Class]] {
		w := fits(u, st, t.patterns.patterns[p], t.shop.House.Tolerance, t.house.Body)
		if !w.Empty() {
			out = append(out, schedule.Fit{Pattern: p, Lo: int64(w.Lo), Hi: int64(w.Hi)})
		}
	}
	return out
}

// conversions gives the time to make any pattern into one that a job wants or a plain one, at the machine and on the
// bench. Nobody builds anything else, so the other columns stay empty.
func (t *translation) conversions(own [][]int) (inFolder, onBench [][]schedule.Time) {
	n := len(t.patterns.patterns)
	wanted := make([]bool, n)
	for plain := range t.shop.Classes { // they are numbered first
		wanted[plain] = true
	}
	for _, row := range own {
		for _, p := range row {
			if p >= 0 {
				wanted[p] = true
			}
		}
	}
	inFolder, onBench = make([][]schedule.Time, n), make([][]schedule.Time, n)
	for p := range n {
		inFolder[p], onBench[p] = never(n), never(n)
		for _, q := range t.patterns.byClass[t.patterns.counts[p].Class] {
			if wanted[q] {
				have, want := t.patterns.patterns[p], t.patterns.patterns[q]
				inFolder[p][q] = wholeSeconds(t.shop.Standards.InFolder(have, want, t.shop.House.Tolerance))
				onBench[p][q] = wholeSeconds(t.shop.Standards.OnBench(have, want, t.shop.House.Tolerance))
			}
		}
	}
	return inFolder, onBench
}

// never is a row of times that stand for "cannot be done".
func never(n int) []schedule.Time {
	row := make([]schedule.Time, n)
	for i := range row {
		row[i] = -1
	}
	return row
}

// loose counts the loose tools of each type.
func (t *translation) loose() []int {
	out := make([]int, len(t.patterns.types))
	for _, stock := range t.shop.Tools {
		if n, ok := t.patterns.types[typeKey{stock.Class, stock.Type}]; ok {
			out[n] += stock.Loose
		}
	}
	return out
}

// toolingMost is more working time than the tooling of one job can take.
func (t *translation) toolingMost() schedule.Time {
	var sum schedule.Time
	for _, u := range t.problem.Tools.Units {
		sum += u.GuideMove
	}
	for _, st := range t.problem.Tools.Stations {
		sum += st.Swap + st.Access
	}
	var convert schedule.Time
	for p := range t.problem.Tools.InFolder {
		for q := range t.problem.Tools.InFolder[p] {
			convert = max(convert, t.problem.Tools.InFolder[p][q], t.problem.Tools.OnBench[p][q])
		}
	}
	return sum + convert*schedule.Time(len(t.problem.Tools.Stations))
}

func wholeSeconds(d time.Duration) schedule.Time { return schedule.Time(d / time.Second) }
