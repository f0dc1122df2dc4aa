package main

import (
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
)

// settingsJSON is the shape of settings --json: one answer when one folder was asked, otherwise the list.
func settingsJSON(list []desk.Answer, one bool) any {
	out := make([]exchange.FolderSettings, len(list))
	for i, a := range list {
		out[i] = exchange.FolderSettings{
			Job:       a.Job.Name,
			Folder:    a.Folder.Name,
			Settings:  a.Settings,
			Miss:      a.Miss,
			Makeready: a.Makeready,
			Run:       a.Run,
			Lines:     a.Lines,
			Stations:  stationsForJSON(a.Stations),
		}
	}
	if one {
		return exchange.Settings(out[0])
	}
	return exchange.SettingsList(out)
}

func stationsForJSON(list []desk.Station) []exchange.StationTooling {
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
