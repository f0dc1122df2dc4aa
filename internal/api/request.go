package api

import (
	"context"
	"net/http"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/adapters/humago"
)

type requestKey struct{}

// line is a request with the writer of its answer, for what the gate does with them.
type line struct {
	r *http.Request
	w http.ResponseWriter
}

// withLine lets handlers find the request and the writer.
func withLine(ctx huma.Context, next func(huma.Context)) {
	r, w := humago.Unwrap(ctx)
	next(huma.WithValue(ctx, requestKey{}, line{r, w}))
}

func lineOf(ctx context.Context) line {
	l, ok := ctx.Value(requestKey{}).(line)
	if !ok {
		panic("api: a handler was called without a request")
	}
	return l
}

func requestOf(ctx context.Context) *http.Request      { return lineOf(ctx).r }
func writerOf(ctx context.Context) http.ResponseWriter { return lineOf(ctx).w }
