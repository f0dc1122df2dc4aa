package ui

import (
	"net/http"
	"net/url"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/calendar"
	"foldwright/internal/draw"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/machine"
	"foldwright/internal/shop"
	"foldwright/internal/words"
)

func (p *pages) foldersRoutes() []route {
	return []route{
		{pattern: "GET /folders", serve: p.folders, deed: access.See, call: "list-folders"},
		{pattern: "GET /folders/{folder}", serve: p.folder, deed: access.See, call: "get-folders"},
	}
}

// folderView is a folder with what stands on it.
type folderView struct {
	*machine.Folder
	Page     string
	Picture  *draw.Picture
	Job      string // for which it is set now
	Down     []calendar.Window
	Sets     []mountedSet
	Jobs     []string // that the order gives it
	Parts    []unitView
	Calendar *calendar.Calendar
	Guides   []shop.Guide
	Edit     string
	Present  string // where its present state is edited
	Hours    string // where its calendar is
}

// unitView is a unit with what counts from 1 and is read by people.
type unitView struct {
	*machine.Unit
	Number int
	Speed  string
	Folds  []plateView
	Shafts []stationView
}

type plateView struct {
	Number int
	Stop   machine.Range
	Up     bool
}

type stationView struct {
	*machine.Station
	Access time.Duration
}

// mountedSet is what stands in a station.
type mountedSet struct {
	Station machine.Station
	Unit    int    // from 1
	Set     string // empty when none stands there
	Page    string // of the set
}

func (p *pages) folders(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	views := make([]*folderView, len(s.Folders))
	for i := range s.Folders {
		views[i] = viewFolder(s, &s.Folders[i], p.gate.Speaker(r), "/folders")
	}
	return p.show(w, r, page{name: "folders", title: words.T("Folders"), body: views})
}

func (p *pages) folder(w http.ResponseWriter, r *http.Request) error {
	s, err := p.desk.Shop(r.Context())
	if err != nil {
		return err
	}
	name := r.PathValue("folder")
	f, ok := s.Folder(name)
	if !ok {
		return fault.Fault{Kind: fault.Missing, Code: shop.CodeUnknownName, Field: "folder", Wrong: "there is no folder " + name, Right: shop.DidYouMean(name, "folder", s.FolderNames())}
	}
	v := viewFolder(s, f, p.gate.Speaker(r), "/folders/"+url.PathEscape(name))
	return p.show(w, r, page{name: "folder", title: words.Plain(name), body: v})
}

// viewFolder gathers what is known of a folder; back is where its forms lead back to.
func viewFolder(s *shop.Shop, f *machine.Folder, say *words.Speaker, back string) *folderView {
	v := &folderView{Folder: f, Page: "/folders/" + url.PathEscape(f.Name), Picture: draw.Folder(f, say)}
	v.Edit = editURL(ledger.OfFolder, f.Name, back)
	v.Hours = editURL(ledger.OfCalendar, f.Calendar, back)
	v.Present = "/new/present?back=" + url.QueryEscape(back)
	if st, ok := s.State(f.Name); ok {
		v.Job, v.Guides, v.Down = st.Job, st.Guides, st.Down
		v.Present = editURL(ledger.OfPresent, f.Name, back)
	}
	v.Calendar, _ = s.Calendar(f.Calendar)
	for u := range f.Units {
		v.Parts = append(v.Parts, viewUnit(&f.Units[u], u+1, say))
		for _, st := range f.Units[u].Stations {
			m := mountedSet{Station: st, Unit: u + 1}
			if set, ok := s.Mounted(f.Name, st.Name); ok {
				m.Set, m.Page = set.Label, "/rack/"+url.PathEscape(set.Label)
			}
			v.Sets = append(v.Sets, m)
		}
	}
	for i := range s.Jobs {
		if s.Jobs[i].Given == f.Name {
			v.Jobs = append(v.Jobs, s.Jobs[i].Name)
		}
	}
	return v
}

func viewUnit(u *machine.Unit, number int, say *words.Speaker) unitView {
	v := unitView{Unit: u, Number: number, Speed: u.Speed.Format(say.Inch)}
	for i, p := range u.Plates {
		v.Folds = append(v.Folds, plateView{i + 1, p.Stop, u.FoldsUp(i + 1)})
	}
	for i := range u.Stations {
		st := &u.Stations[i]
		v.Shafts = append(v.Shafts, stationView{st, time.Duration(st.AccessMin * float64(time.Minute))})
	}
	return v
}

// Week is the calendar of the folder, days of the same hours in one line.
func (v *folderView) Week() (lines []hoursLine) {
	for i := 1; i <= 7; i++ { // from Monday
		day := time.Weekday(i % 7)
		hours := calendar.FormatSpans(v.Calendar.Week[day])
		if n := len(lines); n > 0 && lines[n-1].Hours == hours {
			lines[n-1].To = weekdays[day]
			continue
		}
		lines = append(lines, hoursLine{From: weekdays[day], To: weekdays[day], Hours: hours})
	}
	return lines
}

// hoursLine is a run of days with the same hours; no hours: closed.
type hoursLine struct {
	From, To words.Text
	Hours    string
}

// OneDay says whether the line is of a single day.
func (l hoursLine) OneDay() bool { return l.From.Key == l.To.Key }
