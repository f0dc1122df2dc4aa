package exchange

import (
	"time"

	"foldwright/internal/changeover"
	"foldwright/internal/settings"
	"foldwright/internal/units"
)

// FolderSettings is what one folder says to a job, as the use cases know it: its settings with the minutes to get there
// and what the rack has for them, or the nearest miss.
type FolderSettings struct {
	Job, Folder string
	Settings    *settings.Settings // nil when the folder cannot run the job
	Miss        *settings.Miss     // nil when it can
	Makeready   time.Duration      // the sum of Lines
	Run         time.Duration
	Lines       []changeover.Line
	Stations    []StationTooling // by name; a station that is not here has neither mode nor sets
}

// StationTooling is how a station would get its tools.
type StationTooling struct {
	Station string
	Mode    changeover.Mode
	Set     string // that would stand there
	Serves  []SetShift
	Nearest *SetWork
}

// SetShift is a set that serves once the guide has moved.
type SetShift struct {
	Set   string
	Shift units.Length
}

// SetWork is a set that would serve after some work on the bench.
type SetWork struct {
	Set  string
	Time time.Duration
}

// SettingsAnswer is the shape of `settings --folder F --json`, and of each member of the list without --folder. A folder
// that cannot run the job has nothing but its name and the nearest miss.
type SettingsAnswer struct {
	Job       string            `json:"job"`
	Folder    string            `json:"folder"`
	Miss      string            `json:"miss,omitempty"`
	Feed      *settingsFeed     `json:"feed,omitempty"`
	RatePerH  int               `json:"rate_per_h,omitempty"`
	RateLimit string            `json:"rate_limit,omitempty"`
	Streams   int               `json:"streams,omitempty"`
	RunMin    *float64          `json:"run_min,omitempty"`
	Makeready *float64          `json:"makeready_min,omitempty"`
	Units     []settingsUnit    `json:"units,omitempty"`
	Lines     []changeoverLine  `json:"lines,omitempty"`
	Notes     *[]settingsAdvice `json:"notes,omitempty"`
	Cautions  []string          `json:"cautions,omitempty"`
}

type settingsFeed struct {
	LeadingEdge string `json:"leading_edge"`
	FaceUp      string `json:"face_up"`
}

type settingsUnit struct {
	Unit     int               `json:"unit"`
	Kind     string            `json:"kind"`
	Engaged  bool              `json:"engaged"`
	Passes   bool              `json:"passes,omitempty"`
	Enters   string            `json:"enters,omitempty"`
	In       *StackSize        `json:"in,omitempty"`
	Out      *StackSize        `json:"out,omitempty"`
	Guide    *settingsGuide    `json:"guide,omitempty"`
	Plates   []settingsPlate   `json:"plates"`
	Knife    *settingsKnife    `json:"knife,omitempty"`
	Nips     []settingsNip     `json:"nips"`
	Stations []settingsStation `json:"stations"`
}

type settingsGuide struct {
	Side string  `json:"side"`
	AtMM float64 `json:"at_mm"`
}

// settingsPlate has a stop and the fold it makes, or is closed.
type settingsPlate struct {
	Plate  int      `json:"plate"`
	StopMM *float64 `json:"stop_mm,omitempty"`
	Fold   int      `json:"fold,omitempty"`
	Closed bool     `json:"closed,omitempty"`
}

type settingsKnife struct {
	StopMM float64 `json:"stop_mm"`
	Fold   int     `json:"fold"`
}

type settingsNip struct {
	Nip         int     `json:"nip"`
	Layers      int     `json:"layers"`
	ThicknessUM float64 `json:"thickness_um"`
}

type settingsStation struct {
	Station    string         `json:"station"`
	Class      string         `json:"class"`
	Tools      []settingsTool `json:"tools"`
	DriveRings []float64      `json:"drive_rings_mm"`
	Mode       string         `json:"mode,omitempty"`
	Set        string         `json:"set,omitempty"`
	Serves     []setShift     `json:"serves"`
	Nearest    *setWork       `json:"nearest,omitempty"`
}

type settingsTool struct {
	Kind string  `json:"kind"`
	Spec string  `json:"spec"`
	AtMM float64 `json:"at_mm"`
	TMM  float64 `json:"t_mm"`
	For  string  `json:"for"`
}

type setShift struct {
	Set     string  `json:"set"`
	ShiftMM float64 `json:"shift_mm"`
}

type setWork struct {
	Set string  `json:"set"`
	Min float64 `json:"min"`
}

type changeoverLine struct {
	What string  `json:"what"`
	Why  string  `json:"why,omitempty"`
	Min  float64 `json:"min"`
}

type settingsAdvice struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// SettingsList is the answer without --folder, in the order given, which is best first.
func SettingsList(list []FolderSettings) []SettingsAnswer {
	out := make([]SettingsAnswer, len(list))
	for i := range list {
		out[i] = Settings(list[i])
	}
	return out
}

// Settings is the answer for one folder.
func Settings(f FolderSettings) SettingsAnswer {
	a := SettingsAnswer{Job: f.Job, Folder: f.Folder}
	s := f.Settings
	if s == nil {
		if f.Miss != nil {
			a.Miss = f.Miss.Why().String()
		}
		return a
	}
	makeready, run := f.Makeready.Minutes(), f.Run.Minutes()
	a.Feed = &settingsFeed{string(s.Feed.Leading), string(s.Feed.FaceUp)}
	a.RatePerH, a.RateLimit, a.Streams = s.SheetsPerHour, s.RateLimit.String(), s.Streams
	a.Makeready, a.RunMin = &makeready, &run
	for i := range s.Units {
		a.Units = append(a.Units, unitOf(&s.Units[i], f.Stations))
	}
	for _, l := range f.Lines {
		a.Lines = append(a.Lines, changeoverLine{l.What.String(), l.Why.String(), l.Time.Minutes()})
	}
	notes := make([]settingsAdvice, len(s.Notes))
	for i, n := range s.Notes {
		notes[i] = settingsAdvice{n.Text.String(), n.Source.String()}
	}
	a.Notes, a.Cautions = &notes, settings.Cautions()
	return a
}

func unitOf(u *settings.Unit, tooling []StationTooling) settingsUnit {
	out := settingsUnit{
		Unit: u.Number, Kind: string(u.Kind), Engaged: u.Engaged, Passes: u.Passes, Enters: string(u.Enters),
		Plates: []settingsPlate{}, Nips: []settingsNip{}, Stations: []settingsStation{},
	}
	if u.Engaged || u.Passes {
		in, leaves := stackOf(u.In), stackOf(u.Out)
		out.In, out.Out = &in, &leaves
		out.Guide = &settingsGuide{string(u.Guide.Side), u.Guide.At.MM()}
	}
	for _, p := range u.Plates {
		out.Plates = append(out.Plates, plateOf(p))
	}
	if u.Knife != nil {
		out.Knife = &settingsKnife{u.Knife.Stop.MM(), u.Knife.Fold}
	}
	for _, n := range u.Nips {
		out.Nips = append(out.Nips, settingsNip{n.Number, n.Layers, n.Thickness.Microns()})
	}
	for i := range u.Stations {
		out.Stations = append(out.Stations, stationOf(&u.Stations[i], tooling))
	}
	return out
}

func plateOf(p settings.Plate) settingsPlate {
	if p.Closed {
		return settingsPlate{Plate: p.Number, Closed: true}
	}
	stop := p.Stop.MM()
	return settingsPlate{Plate: p.Number, StopMM: &stop, Fold: p.Fold}
}

func stationOf(st *settings.Station, tooling []StationTooling) settingsStation {
	out := settingsStation{Station: st.Name, Class: st.Class, Tools: []settingsTool{}, DriveRings: []float64{}, Serves: []setShift{}}
	for _, t := range st.Tools {
		out.Tools = append(out.Tools, settingsTool{string(t.Kind), t.Spec, t.At.MM(), t.T.MM(), t.For.String()})
	}
	for _, at := range st.DriveRings {
		out.DriveRings = append(out.DriveRings, at.MM())
	}
	for i := range tooling {
		if tooling[i].Station == st.Name {
			out.rack(&tooling[i])
		}
	}
	return out
}

// rack adds what the rack has for the station.
func (s *settingsStation) rack(t *StationTooling) {
	s.Mode, s.Set = string(t.Mode), t.Set
	for _, m := range t.Serves {
		s.Serves = append(s.Serves, setShift{m.Set, m.Shift.MM()})
	}
	if t.Nearest != nil {
		s.Nearest = &setWork{t.Nearest.Set, t.Nearest.Time.Minutes()}
	}
}
