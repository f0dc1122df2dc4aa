package exchange

// MatchesDocument tells which sets of the rack serve a job on a folder, station by station, or why the folder cannot run it.
type MatchesDocument struct {
	Job      string         `json:"job"`
	Folder   string         `json:"folder"`
	Miss     string         `json:"miss,omitempty"`
	Stations []stationMatch `json:"stations"`
}

// stationMatch is a station with the tools that the job wants there, the sets that serve, and the nearest one when none does.
type stationMatch struct {
	Unit    int        `json:"unit"`
	Station string     `json:"station"`
	Class   string     `json:"class"`
	Tools   []rackTool `json:"tools"`
	Mode    string     `json:"mode,omitempty"`
	Set     string     `json:"set,omitempty"`
	Serves  []setShift `json:"serves"`
	Nearest *setWork   `json:"nearest,omitempty"`
}

// Matches gives what the folders say of a job's tooling its shape, in the order given.
func Matches(list []FolderSettings) []MatchesDocument { return each(list, matches) }

func matches(f FolderSettings) MatchesDocument {
	whole := Settings(f)
	doc := MatchesDocument{Job: f.Job, Folder: f.Folder, Miss: whole.Miss, Stations: []stationMatch{}}
	for _, u := range whole.Units {
		for _, st := range u.Stations {
			doc.Stations = append(doc.Stations, stationMatch{
				Unit: u.Unit, Station: st.Station, Class: st.Class, Mode: st.Mode, Set: st.Set, Serves: st.Serves, Nearest: st.Nearest,
				Tools: each(st.Tools, func(t settingsTool) rackTool { return rackTool{Kind: t.Kind, Spec: t.Spec, AtMM: t.AtMM} }),
			})
		}
	}
	return doc
}
