package plan

import (
	"time"

	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/schedule"
	"foldwright/internal/settings"
	"foldwright/internal/shop"
)

// translation is a shop as a problem for the search, with what the numbers of the problem stand for. Machine numbers are
// places in shop.Folders, set numbers places in shop.Sets, person numbers places in shop.Bench.
type translation struct {
	shop       *shop.Shop
	from       time.Time
	percentile int // of cases in which the minutes suffice; 0: they are those in the middle
	house      *settings.House
	jobs       []*job.Job             // by job number of the problem
	ways       [][]*settings.Settings // by job and folder: how it would be set; nil where it cannot run
	asked      map[string]asked       // by name of the job, those that no folder can run too
	whys       [][]Why                // by job: why the folders that cannot run it cannot
	present    []*settings.Settings   // by folder: what it is set for now; nil when not known
	unplaced   []Unplaced             // the jobs of the shop that have no number, with the reasons
	units      []unitRef              // by unit number of the problem
	stations   []stationRef           // by station number of the problem
	patterns   *patterns
	problem    *schedule.Problem
}

// unitRef is a unit of a folder that has stations.
type unitRef struct{ folder, unit int }

// stationRef is a station of a folder.
type stationRef struct {
	unitRef
	station int // in the unit
	number  int // of the unit in the problem
}

// translate builds the problem.
func translate(s *shop.Shop, from time.Time, earlier map[string]asked) *translation {
	t := &translation{shop: s, from: from, house: s.SettingsHouse()}
	t.askWays(earlier)
	t.listStations()
	t.problem = &schedule.Problem{
		Machines: t.machines(),
		Jobs:     t.jobList(),
		Setup:    t.setups(),
		Weights:  t.weights(),
	}
	t.problem.Precedences = t.precedences()
	t.problem.Tools = t.tooling()
	t.extendWindows()
	return t
}

// folder returns a folder by its number.
func (t *translation) folder(m int) *machine.Folder { return &t.shop.Folders[m] }

// unit returns a unit of the problem as the shop knows it.
func (t *translation) unit(u unitRef) *machine.Unit { return &t.folder(u.folder).Units[u.unit] }

// station returns a station of the problem as the shop knows it.
func (t *translation) station(k int) *machine.Station {
	ref := t.stations[k]
	return &t.unit(ref.unitRef).Stations[ref.station]
}

// listStations numbers the stations of all folders, folder by folder in the order of travel.
func (t *translation) listStations() {
	for m := range t.shop.Folders {
		for u, unit := range t.shop.Folders[m].Units {
			if len(unit.Stations) == 0 {
				continue
			}
			ref := unitRef{m, u}
			for k := range unit.Stations {
				t.stations = append(t.stations, stationRef{ref, k, len(t.units)})
			}
			t.units = append(t.units, ref)
		}
	}
}

// at is a moment as seconds from the plan's start, rounded towards later.
func (t *translation) at(moment time.Time) schedule.Time {
	d := moment.Sub(t.from)
	s := d / time.Second
	if d%time.Second > 0 {
		s++
	}
	return schedule.Time(s)
}

// clock is a second of the plan as wall-clock time in the shop's zone.
func (t *translation) clock(s schedule.Time) time.Time {
	return t.from.Add(time.Duration(s) * time.Second)
}
