package plan

import (
	"slices"

	"foldwright/internal/schedule"
	"foldwright/internal/tooling"
)

// builds turns the bench work of an answer into words and wall-clock times.
func (t *translation) builds(found *schedule.Plan) []Build {
	out := make([]Build, len(found.Builds))
	swapped := swappedIn(found)
	for i, b := range found.Builds {
		from, to := t.patterns.patterns[b.From], t.patterns.patterns[b.Pattern]
		edit := tooling.ConvertWithin(from, to, t.shop.Standards.AtBench.EditCost, exact, tooling.Window{})
		out[i] = Build{
			Set:     t.label(b.Set),
			Job:     t.jobs[b.Job].Name,
			Folder:  t.folder(t.stations[b.Station].folder).Name,
			Station: t.station(b.Station).Name,
			Person:  t.shop.Bench[b.Person].Name,
			From:    slices.Clone(from.Tools),
			To:      slices.Clone(to.Tools),
			Remove:  edit.Remove,
			Add:     edit.Add,
			Slide:   edit.Slide,
			Frees:   !swapped[i],
			Work:    duration(b.Work),
			Start:   t.clock(b.Start),
			End:     t.clock(b.End),
		}
	}
	return out
}

// swappedIn tells which builds are swapped in afterwards. The others only take tools off a set, because a job wants them.
func swappedIn(found *schedule.Plan) []bool {
	out := make([]bool, len(found.Builds))
	for _, lane := range found.Tasks {
		for _, task := range lane {
			for _, mount := range task.Mounts {
				if mount.Build >= 0 {
					out[mount.Build] = true
				}
			}
		}
	}
	return out
}
