package api

import (
	"context"
	"net/http"
	"strconv"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
	"foldwright/internal/ledger"
)

type (
	changesIn struct {
		Before int64  `query:"before" minimum:"0" doc:"Only changes before this revision: the next of the page before has it."`
		Limit  int    `query:"limit" minimum:"1" maximum:"500" default:"100" doc:"At most so many."`
		Thing  string `query:"thing" maxLength:"60" doc:"Only changes of the thing with this id."`
	}

	changesOut struct {
		Link string `header:"Link"`
		Body struct {
			Items []exchange.ChangeDocument `json:"items"`
			Next  string                    `json:"next,omitempty"`
		} `nameHint:"ChangePage"`
	}

	undoIn struct {
		Revision int64 `path:"revision" minimum:"1"`
	}

	undoOut struct {
		Body struct {
			Revision int64 `json:"revision" doc:"Of the change that took the other back."`
		} `nameHint:"Undone"`
	}
)

func (a *API) changes() {
	register(a, call{id: "list-changes", method: http.MethodGet, path: "/changes", tag: "changes", says: "Who changed what, newest first", need: access.See}, a.listChanges)
	register(a, call{id: "undo-change", method: http.MethodPost, path: "/changes/{revision}/undo", tag: "changes", says: "Take a change back, as a new change", need: access.Record},
		func(ctx context.Context, in *undoIn) (*undoOut, error) {
			now, err := a.desk.Undo(ctx, in.Revision)
			if err != nil {
				return nil, err
			}
			out := &undoOut{}
			out.Body.Revision = now.Revision
			return out, nil
		})
}

func (a *API) listChanges(ctx context.Context, in *changesIn) (*changesOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	list, err := a.desk.History(ctx, ledger.Page{Before: in.Before, Limit: in.Limit + 1, Thing: in.Thing})
	if err != nil {
		return nil, err
	}
	out := &changesOut{}
	if len(list) > in.Limit {
		list = list[:in.Limit]
		out.Body.Next = Prefix + "/changes?before=" + strconv.FormatInt(list[in.Limit-1].Revision, 10) + "&limit=" + strconv.Itoa(in.Limit)
		if in.Thing != "" {
			out.Body.Next += "&thing=" + in.Thing
		}
		out.Link = link(out.Body.Next)
	}
	out.Body.Items = exchange.Changes(list, s.Zone)
	return out, nil
}
