package api

import (
	"context"
	"net/http"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/press"
)

type (
	settingsIn struct {
		Named
		Folder string `query:"folder" doc:"Only this folder; without it all of them, best first."`
	}

	settingsOut struct{ Body any }

	matchesOut struct{ Body []exchange.MatchesDocument }

	tryIn struct {
		Was string `query:"was" doc:"The job that the docket would take the place of; without it a new one."`
		Sent
	}

	tryOut struct{ Body Trial }

	repeatIn struct {
		Named
		Body struct {
			Name    string    `json:"name,omitempty" doc:"Of the new job; without it the next free one, such as 2101-2."`
			Title   string    `json:"title,omitempty"`
			Sheets  int       `json:"sheets,omitempty" minimum:"1"`
			Weight  int       `json:"weight,omitempty" minimum:"1"`
			Release time.Time `json:"release,omitzero"`
			Due     time.Time `json:"due,omitzero"`
		} `nameHint:"RepeatAsk"`
	}
)

// Trial is what a docket would come to, without being kept.
type Trial struct {
	Faults  []exchange.ProblemFault   `json:"faults" doc:"What is wrong, by the fields of the docket."`
	Fold    *exchange.FoldAnswer      `json:"fold,omitempty" doc:"How it folds; left out when it cannot be folded at all."`
	Folders []exchange.SettingsAnswer `json:"folders" doc:"What every folder says, best first; empty as long as faults stand in the way."`
	No      string                    `json:"no,omitempty" doc:"Why no folder can."`
}

func (a *API) jobs() {
	path := "/jobs/{name}"
	register(a, call{id: "job-settings", method: http.MethodGet, path: path + "/settings", tag: "jobs", says: "Settings of a job on one folder, or on all of them, best first", need: access.See, answers: "SettingsAnswers"}, a.settings)
	register(a, call{id: "job-matches", method: http.MethodGet, path: path + "/matches", tag: "jobs", says: "Sets of the rack that serve a job, and the nearest that do not", need: access.See},
		func(ctx context.Context, in *settingsIn) (*matchesOut, error) {
			return a.matches(ctx, in.Name, in.Folder)
		})
	register(a, call{id: "try-job", method: http.MethodPost, path: "/jobs/try", tag: "jobs", says: "What a docket would come to; nothing is kept", need: access.See, body: "Job"}, a.try)
	register(a, call{id: "repeat-job", method: http.MethodPost, path: path + "/repeat", tag: "jobs", says: "A new job like an earlier one, waiting or finished", need: access.Arrange, answers: "Job", status: http.StatusCreated}, a.repeat)
}

func (a *API) settings(ctx context.Context, in *settingsIn) (*settingsOut, error) {
	answers, err := a.answers(ctx, in.Name, in.Folder)
	if err != nil {
		return nil, err
	}
	if in.Folder != "" {
		return &settingsOut{exchange.Settings(answers[0])}, nil
	}
	return &settingsOut{exchange.SettingsList(answers)}, nil
}

func (a *API) matches(ctx context.Context, job, folder string) (*matchesOut, error) {
	answers, err := a.answers(ctx, job, folder)
	if err != nil {
		return nil, err
	}
	return &matchesOut{exchange.Matches(answers)}, nil
}

// answers asks the folders. That none can is an answer too: each says what comes nearest.
func (a *API) answers(ctx context.Context, job, folder string) ([]exchange.FolderSettings, error) {
	list, err := a.desk.Settings(ctx, job, folder)
	if list == nil {
		return nil, err
	}
	return press.Settings(list), nil
}

// try answers a docket that may be half typed: what cannot be read is one of the faults.
func (a *API) try(ctx context.Context, in *tryIn) (*tryOut, error) {
	value, err := a.read(ctx, kindOf(ledger.OfJob), in.RawBody)
	if found := fault.All(err); len(found) > 0 {
		return &tryOut{Trial{Faults: faultsOf(found), Folders: []exchange.SettingsAnswer{}}}, nil
	}
	if err != nil {
		return nil, err
	}
	t, err := a.desk.Try(ctx, in.Was, value.(job.Job))
	if err != nil {
		return nil, err
	}
	out := Trial{Faults: faultsOf(t.Faults), Folders: exchange.SettingsList(press.Settings(t.Answers))}
	if t.Folded != nil {
		fold := exchange.Fold(t.Folded)
		out.Fold = &fold
	}
	if no := fault.All(t.No); len(no) > 0 {
		out.No = no[0].Wrong + "; " + no[0].Right
	}
	return &tryOut{out}, nil
}

func faultsOf(found fault.List) []exchange.ProblemFault {
	list := make([]exchange.ProblemFault, len(found))
	for i, f := range found {
		list[i] = exchange.ProblemFault{Field: f.Field, Line: f.Line, Col: f.Col, Wrong: f.Wrong, Right: f.Right, Code: string(f.Code)}
	}
	return list
}

func (a *API) repeat(ctx context.Context, in *repeatIn) (*valueOut, error) {
	b := in.Body
	t, err := a.desk.Repeat(ctx, in.Name, desk.RepeatAsk{Name: b.Name, Title: b.Title, Sheets: b.Sheets, Weight: b.Weight, Release: b.Release, Due: b.Due})
	if err != nil {
		return nil, a.within(ctx, kindOf(ledger.OfJob), "", err)
	}
	return a.created(ctx, kindOf(ledger.OfJob), t)
}
