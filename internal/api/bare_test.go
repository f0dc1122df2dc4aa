package api_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"time"

	"foldwright/internal/api"
)

// serve asks a door without a server and without a gate in front.
func serve(h http.Handler, method, path string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(method, api.Prefix+path, nil))
	return w
}

// noSessions is a store of sessions in which nobody is logged in.
type noSessions struct{}

func (noSessions) Delete(string) error                                        { return nil }
func (noSessions) Find(string) ([]byte, bool, error)                          { return nil, false, nil }
func (noSessions) Commit(string, []byte, time.Time) error                     { return nil }
func (noSessions) DeleteCtx(context.Context, string) error                    { return nil }
func (noSessions) FindCtx(context.Context, string) ([]byte, bool, error)      { return nil, false, nil }
func (noSessions) CommitCtx(context.Context, string, []byte, time.Time) error { return nil }
func (noSessions) AllCtx(context.Context) (map[string][]byte, error)          { return nil, nil }
func (noSessions) Expire(context.Context, time.Time) error                    { return nil }
