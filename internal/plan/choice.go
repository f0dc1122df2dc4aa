package plan

import (
	"cmp"
	"slices"

	"foldwright/internal/job"
	"foldwright/internal/schedule"
	"foldwright/internal/units"
)

// Choice is what was chosen for a job on its folder.
type Choice struct {
	Job string
	job.Choice
}

// ways are the search's modes as a job chooses them.
var ways = map[job.Way]schedule.Mode{job.Swap: schedule.Swap, job.Built: schedule.Built, job.InFolder: schedule.InFolder}

// choices are the wishes of a search by folder, in names: those of jobs that stand there in the order, by their
// places.
func (t *translation) choices(order schedule.Order, wishes []schedule.Wish) [][]Choice {
	out := make([][]Choice, len(order))
	sorted := slices.SortedFunc(slices.Values(wishes), func(a, b schedule.Wish) int {
		return cmp.Or(cmp.Compare(a.Unit, b.Unit), cmp.Compare(a.Station, b.Station))
	})
	for m, row := range order {
		for _, j := range row {
			for _, w := range sorted {
				if w.Job == j && t.units[w.Unit].folder == m {
					out[m] = append(out[m], Choice{t.jobs[j].Name, t.choice(w)})
				}
			}
		}
	}
	return out
}

func (t *translation) choice(w schedule.Wish) job.Choice {
	if w.Station < 0 {
		return job.Choice{Unit: t.units[w.Unit].unit + 1, Guide: units.Length(w.Guide)}
	}
	c := job.Choice{Station: t.station(w.Station).Name, Set: t.label(w.Set)}
	for way, mode := range ways {
		if mode == w.Mode {
			c.Way = way
		}
	}
	return c
}

// wishes are the choices of an order in numbers, without those whose names nobody knows any more.
func (t *translation) wishes(o Order) []schedule.Wish {
	var out []schedule.Wish
	number := t.numbers()
	for _, lane := range o {
		for _, c := range lane.Choices {
			if j, known := number[c.Job]; known {
				out = t.addWish(out, lane.Folder, j, c.Choice)
			}
		}
	}
	return out
}

// givenWishes are the choices of the jobs of the shop, in numbers.
func (t *translation) givenWishes() []schedule.Wish {
	var out []schedule.Wish
	for j := range t.jobs {
		for _, c := range t.jobs[j].Choices {
			out = t.addWish(out, t.jobs[j].Given, j, c)
		}
	}
	return out
}

func (t *translation) addWish(wishes []schedule.Wish, folder string, j int, c job.Choice) []schedule.Wish {
	for k, ref := range t.stations {
		if t.folder(ref.folder).Name != folder || t.ways[j][ref.folder] == nil {
			continue
		}
		if c.Station == "" && ref.unit+1 == c.Unit {
			if reach := t.unit(ref.unitRef).Guide.Range; c.Guide < reach.Min || c.Guide > reach.Max {
				return wishes
			}
			return append(wishes, schedule.Wish{Job: j, Unit: ref.number, Station: -1, Guide: int64(c.Guide)})
		}
		mode, known := ways[c.Way]
		if x := t.setNumber(c.Set); known && x >= 0 && c.Station == t.station(k).Name {
			return append(wishes, schedule.Wish{Job: j, Unit: ref.number, Station: k, Mode: mode, Set: x})
		}
	}
	return wishes
}

func (t *translation) setNumber(label string) int {
	for x := range t.shop.Sets {
		if t.shop.Sets[x].Label == label {
			return x
		}
	}
	return -1
}
