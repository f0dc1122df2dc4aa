package settings

import (
	"testing"

	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/tooling"
	"foldwright/internal/units"

	"pgregory.net/rapid"
)

// Whatever a folder is said to be, there is an answer: ways, or a miss with words. Checking the folder is another room's
// work, but a file that is half wrong is still asked.
func TestAnyFolderGetsAnAnswer(t *testing.T) {
	length := func(t *rapid.T, what string) units.Length {
		return units.Length(rapid.IntRange(-50, 900).Draw(t, what)) * mm
	}
	between := func(t *rapid.T, what string) machine.Range {
		return machine.Range{Min: length(t, what), Max: length(t, what)}
	}
	rapid.Check(t, func(t *rapid.T) {
		j, folded := randomJob(t, 4)
		randomOperations(t, j)
		j.Operations = append(j.Operations, job.Operation{Kind: tooling.Strip, Spec: "wide", Target: job.OnLine, At: length(t, "line")},
			job.Operation{Kind: tooling.Slit, Target: job.OnEdge, Edge: job.Head, At: length(t, "trim")})
		f := randomFolder(t)
		f.Feeder = machine.Feeder{Length: between(t, "length"), Width: between(t, "width"), MinGrammage: 90 * units.GramPerM2}
		for u := range f.Units {
			unit := &f.Units[u]
			unit.Speed, unit.Gap, unit.WidthMax = units.Speed(length(t, "speed")), length(t, "gap"), length(t, "wide")
			unit.ThicknessMax = length(t, "thick") / 1000
			unit.Guide.Range, unit.Stop = between(t, "guide"), between(t, "stop")
			for p := range unit.Plates {
				unit.Plates[p].Stop = between(t, "plate")
			}
			for k := range unit.Stations {
				unit.Stations[k].From, unit.Stations[k].To = length(t, "from"), length(t, "to")
			}
			if rapid.IntRange(0, 4).Draw(t, "odd") == 0 {
				unit.Kind, unit.Enters = "", nil
			}
		}
		body := tooling.Body{Left: length(t, "left"), Right: length(t, "right")}
		h := &House{Body: func(string, tooling.Type) tooling.Body { return body }}
		if ways, miss := Ways(j, folded, f, h); len(ways) == 0 && (miss == nil || len(miss.Whys) == 0) {
			t.Fatal("neither ways nor a reason")
		}
	})
}
