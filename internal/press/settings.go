package press

import (
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
)

// Settings gives what the folders say to a job to exchange, which knows its outer shape.
func Settings(answers []desk.Answer) []exchange.FolderSettings {
	out := make([]exchange.FolderSettings, len(answers))
	for i, a := range answers {
		out[i] = exchange.FolderSettings{
			Job: a.Job.Name, Folder: a.Folder.Name, Settings: a.Settings, Miss: a.Miss, Makeready: a.Makeready, Run: a.Run, Lines: a.Lines,
			Stations: stations(a.Stations),
		}
	}
	return out
}

func stations(list []desk.Station) []exchange.StationTooling {
	out := make([]exchange.StationTooling, len(list))
	for i, st := range list {
		out[i] = exchange.StationTooling{Station: st.Name, Mode: st.Mode, Set: st.Set}
		for _, s := range st.Serves {
			out[i].Serves = append(out[i].Serves, exchange.SetShift{Set: s.Set.Label, Shift: s.Shift})
		}
		if st.Nearest != nil {
			out[i].Nearest = &exchange.SetWork{Set: st.Nearest.Set.Label, Time: st.Nearest.Time}
		}
	}
	return out
}
