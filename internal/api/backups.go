package api

import (
	"context"
	"net/http"

	"github.com/danielgtaylor/huma/v2"

	"foldwright/internal/access"
)

type restoreOut struct {
	Body struct {
		Revision int64 `json:"revision" doc:"Of the change that the restore was."`
	} `nameHint:"Restored"`
}

func (a *API) backups() {
	register(a, call{id: "backup", method: http.MethodPost, path: "/backups", tag: "shop", says: "A checked copy of the whole database, accounts and audit trail included", need: access.Rule, media: mediaBackup},
		func(ctx context.Context, _ *struct{}) (*streamOut, error) {
			return &streamOut{func(c huma.Context) { a.backup(ctx, c) }}, nil
		})
	register(a, call{id: "restore", method: http.MethodPost, path: "/restore", tag: "shop", says: "Put a backup in the place of all there is; it is checked first", need: access.Rule, sends: mediaBackup},
		func(ctx context.Context, _ *struct{}) (*restoreOut, error) {
			now, err := a.desk.Restore(ctx, requestOf(ctx).Body)
			if err != nil {
				return nil, err
			}
			out := &restoreOut{}
			out.Body.Revision = now.Revision
			return out, nil
		})
}

// backup sends the copy as it is read. Until the first byte an error can still be told.
func (a *API) backup(ctx context.Context, c huma.Context) {
	a.gate.Streams(writerOf(ctx))
	w := &lateWriter{c: c}
	err := a.desk.Backup(ctx, w)
	switch {
	case err == nil:
	case w.begun:
		panic(http.ErrAbortHandler) // so that nobody takes a half for the whole
	default:
		write(c, asProblem(ctx, err))
	}
}

// lateWriter says what comes when the first of it is here.
type lateWriter struct {
	c     huma.Context
	begun bool
}

func (w *lateWriter) Write(p []byte) (int, error) {
	if !w.begun {
		w.begun = true
		w.c.SetHeader("Content-Type", mediaBackup)
		w.c.SetHeader("Content-Disposition", `attachment; filename="foldwright-backup.db"`)
		w.c.SetStatus(http.StatusOK)
	}
	return w.c.BodyWriter().Write(p)
}
