package plan

import (
	"fmt"
	"slices"

	"foldwright/internal/changeover"
	"foldwright/internal/schedule"
	"foldwright/internal/settings"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// lane turns the tasks of one folder into jobs with their lines. Guides are followed from task to task, because a guide
// line is due exactly when a guide has to move.
func (t *translation) lane(m int, tasks []schedule.Task) []Task {
	out := make([]Task, len(tasks))
	guides := make([]int64, len(t.units))
	for n := range t.units {
		guides[n] = t.problem.Tools.Units[n].GuideAt
	}
	from := t.present[m]
	for i, task := range tasks {
		to := t.ways[task.Job][m]
		out[i] = t.task(m, task, to)
		moved := t.follow(guides, task)
		if i > 0 || !t.problem.Machines[m].Started {
			out[i].Lines = t.reserve(t.lines(m, from, to, task, moved), task.Setup())
		}
		out[i].Makeready = changeover.Sum(out[i].Lines)
		agree(out[i].Job, wholeSeconds(out[i].Makeready), task.Setup())
		out[i].Guides = t.guides(m, guides, task)
		out[i].Settings, out[i].Before = t.placed(m, to, out[i].Guides), from
		from = out[i].Settings
	}
	return out
}

// placed is how a job is set with the guides of the units it uses where the plan has them.
func (t *translation) placed(m int, way *settings.Settings, guides []Guide) *settings.Settings {
	for _, g := range guides {
		if passes(way, g.Unit-1) {
			way = way.WithGuide(t.folder(m), g.Unit, g.At)
		}
	}
	return way
}

// lines explain a make-ready: what hangs on the two settings, the guides, then station by station.
func (t *translation) lines(m int, from, to *settings.Settings, task schedule.Task, moved []int) []changeover.Line {
	lines := changeover.Base(&t.shop.Standards, from, to)
	moved = append(moved, t.plainGuides(m, from, to)...)
	if len(moved) > 0 {
		slices.Sort(moved)
		lines = append(lines, t.shop.Standards.GuideLine(moved...))
	}
	for _, mount := range task.Mounts {
		if line := t.toolingLine(mount, task.Job); line.Time > 0 {
			lines = append(lines, line)
		}
	}
	return lines
}

// toolingLine explains what is done at one station.
func (t *translation) toolingLine(mount schedule.Mount, j int) changeover.Line {
	line := t.plainToolingLine(mount, j)
	if mount.Wished {
		line.Why = words.T("%s", words.Series{line.Why, words.T("for the sake of later jobs")})
	}
	return line
}

func (t *translation) plainToolingLine(mount schedule.Mount, j int) changeover.Line {
	std, st := &t.shop.Standards, *t.station(mount.Station)
	switch mount.Mode {
	case schedule.Swap, schedule.Built, schedule.Plain:
		line := std.SwapLine(st, t.label(mount.Set))
		if mount.Mode == schedule.Built {
			line.Why = words.T("%s", words.Series{line.Why, words.T("built on the bench before")})
		}
		return line
	case schedule.InFolder:
		return t.fitLine(mount, j)
	}
	return changeover.Line{}
}

// fitLine explains tools changed at the machine. When the set that is fitted comes from the rack, its swap, which the
// way to the shafts is part of, stands on the same line.
func (t *translation) fitLine(mount schedule.Mount, j int) changeover.Line {
	std, st := &t.shop.Standards, *t.station(mount.Station)
	have := t.patterns.patterns[mount.From]
	want := t.patterns.patterns[t.problem.Tools.Wants[j][mount.Station].Pattern]
	line := std.FitLine(st, have, want, exact)
	work := std.InFolder(have, want, exact)
	if tools := t.problem.Tools; mount.Time != tools.Stations[mount.Station].Access+tools.InFolder[mount.From][tools.Wants[j][mount.Station].Pattern] {
		swap := std.SwapLine(st, t.label(mount.Set))
		line.Why = words.T("%s", words.Series{swap.Why, line.Why})
		line.Time = swap.Time + work
	}
	return line
}

// follow moves the guides as a task does and returns the numbers of the units whose guide moved.
func (t *translation) follow(guides []int64, task schedule.Task) []int {
	var moved []int
	for _, mount := range task.Mounts {
		ref := t.stations[mount.Station]
		if guides[ref.number] != mount.Guide {
			guides[ref.number] = mount.Guide
			moved = append(moved, ref.unit+1)
		}
	}
	return moved
}

// guides lists where the guides of a folder stand during a task, those of units with stations that were set at least once.
func (t *translation) guides(m int, at []int64, task schedule.Task) []Guide {
	var out []Guide
	for n, ref := range t.units {
		if ref.folder == m && at[n] != notKnown {
			later := slices.ContainsFunc(task.Mounts, func(m schedule.Mount) bool { return m.GuideWished && t.stations[m.Station].number == n })
			out = append(out, Guide{ref.unit + 1, units.Length(at[n]), later})
		}
	}
	return out
}

// agree makes sure that the lines of a task are its make-ready: a difference is a fault of this program, in which the
// figures of the plan and their explanation would part.
func agree(job string, lines, search schedule.Time) {
	if lines != search {
		panic(fmt.Sprintf("the lines of job %s come to %d s, the search counted %d s", job, lines, search))
	}
}
