package api

import (
	"context"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/fold"
	"foldwright/internal/words"
)

type drawingIn struct {
	Named
	Reader
	Folder string `query:"folder" doc:"The folder whose shafts are drawn; without it the best one."`
}

// drawing is one of the pictures of a job.
type drawing struct {
	name, says string
	make       func(a *API, ctx context.Context, job, folder string, say *words.Speaker) (*draw.Picture, error)
}

var jobDrawings = []drawing{
	{"sheet", "The flat sheet with its tools, and below it the shafts that make them", (*API).drawSheet},
	{"sequence", "The folding step by step", (*API).drawSequence},
	{"shafts", "The shafts that the job wants tools on, to scale", (*API).drawShafts},
	{"dummy", "The flat sheet, front and back, with creases and folios", (*API).drawDummy},
}

func (a *API) drawings() {
	for _, d := range jobDrawings {
		register(a, call{id: "job-" + d.name + "-drawing", method: http.MethodGet, path: "/jobs/{name}/drawings/" + d.name + ".svg", tag: "prints", says: d.says, need: access.See, media: mediaSVG},
			func(ctx context.Context, in *drawingIn) (*fileOut, error) {
				p, err := d.make(a, ctx, in.Name, in.Folder, a.speaker(ctx, in.Reader))
				if err != nil {
					return nil, err
				}
				return svg(d.name+"-"+in.Name, p, in.IfNoneMatch), nil
			})
	}
	register(a, call{id: "plan-day-drawing", method: http.MethodGet, path: "/plans/{id}/day.svg", tag: "prints", says: "The lanes of the folders and of the bench, a picture a day", need: access.See, media: mediaSVG}, a.drawDay)
}

// folded is a job as its sheet folds.
func (a *API) folded(ctx context.Context, name string) (*fold.Folded, desk.Answer, error) {
	answers, err := a.desk.Settings(ctx, name, "")
	if answers == nil {
		return nil, desk.Answer{}, err
	}
	j := answers[0].Job
	f, err := j.Scheme.Apply(j.Sheet)
	return f, answers[0], err
}

func (a *API) drawDummy(ctx context.Context, name, _ string, say *words.Speaker) (*draw.Picture, error) {
	f, of, err := a.folded(ctx, name)
	if err != nil {
		return nil, err
	}
	return draw.Dummy(f, of.Job.Operations, say), nil
}

func (a *API) drawSequence(ctx context.Context, name, _ string, say *words.Speaker) (*draw.Picture, error) {
	f, _, err := a.folded(ctx, name)
	if err != nil {
		return nil, err
	}
	return draw.Sequence(f, say), nil
}

func (a *API) drawShafts(ctx context.Context, name, folder string, say *words.Speaker) (*draw.Picture, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	answers, err := a.desk.Settings(ctx, name, folder)
	if err != nil { // that no folder can is no picture
		return nil, err
	}
	return draw.Shafts(s, answers[0].Settings, say), nil
}

func (a *API) drawSheet(ctx context.Context, name, folder string, say *words.Speaker) (*draw.Picture, error) {
	sheet, err := a.drawDummy(ctx, name, folder, say)
	if err != nil {
		return nil, err
	}
	shafts, err := a.drawShafts(ctx, name, folder, say)
	if err != nil {
		return nil, err
	}
	return draw.Below(sheet, shafts), nil
}

type dayIn struct {
	DraftID
	Reader
	Day int `query:"day" minimum:"1" maximum:"366" doc:"Only this day of the plan, 1 for the first; without it all of them, one below the other."`
}

func (a *API) drawDay(ctx context.Context, in *dayIn) (*fileOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	d, err := a.desk.Draft(ctx, in.ID)
	if err != nil {
		return nil, err
	}
	days := draw.Timeline(d.Plan, s, a.speaker(ctx, in.Reader))
	if in.Day > len(days) {
		return nil, noSuchDay(in.Day, len(days))
	}
	if in.Day > 0 {
		days = days[in.Day-1 : in.Day]
	}
	return svg("day-"+in.ID, draw.Below(days...), in.IfNoneMatch), nil
}
