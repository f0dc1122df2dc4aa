package api

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"github.com/danielgtaylor/huma/v2"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
)

// call is an operation as it is registered: what it is called, and what one must be allowed for it.
type call struct {
	id, method, path string
	tag, says        string
	need             access.Deed // empty: nothing, not even to be known
	status           int         // when it went well; 0 = what is usual
	body             ref         // of the request, when it is not read into a struct
	answers          ref         // of the answer, when it is not written from a struct
	media            string      // of an answer that is no JSON
	sends            string      // the sort of a body that a handler reads as it comes
	most             int64       // bytes of the body; 0 = 1 MB
	open             bool        // the body may be left out
}

// bodyMost is the longest body that is read, but for those that say more.
const bodyMost = 1 << 20

// keyMost is the longest key under which something can be sent again.
var keyMost = 200

// ref names a schema of the document.
type ref string

func (r ref) schema() *huma.Schema { return &huma.Schema{Ref: "#/components/schemas/" + string(r)} }

// The keys of what an operation keeps for the middleware and the page.
const (
	keyNeed = "need"
	keyCall = "call"
)

// register takes an operation into the API. What the handler returns as an error becomes a problem document.
func register[I, O any](a *API, c call, handle func(context.Context, *I) (*O, error)) {
	op := c.operation()
	huma.Register(a.huma, op, func(ctx context.Context, in *I) (*O, error) {
		out, err := handle(ctx, in)
		if err != nil {
			return nil, asProblem(ctx, err)
		}
		return out, nil
	})
	item := a.huma.OpenAPI().Paths[c.path]
	c.describeBody(operationOf(item, c.method))
}

// operation is the call as huma knows it.
func (c call) operation() huma.Operation {
	op := huma.Operation{
		OperationID: c.id, Method: c.method, Path: c.path, Tags: []string{c.tag}, Summary: c.says, DefaultStatus: c.status,
		MaxBodyBytes: max(c.most, bodyMost), SkipValidateBody: c.body != "", RejectUnknownQueryParameters: true,
		Metadata:  map[string]any{keyNeed: c.need, keyCall: c},
		Responses: map[string]*huma.Response{"default": problemResponse()},
		Security:  []map[string][]string{{"session": {}}, {"token": {}}},
	}
	if c.need == "" {
		op.Security = []map[string][]string{}
	} else {
		op.Extensions = map[string]any{"x-least-role": leastRole(c.need)}
	}
	if c.method != http.MethodGet {
		op.Parameters = []*huma.Param{{Name: "Idempotency-Key", In: "header", Description: "Sent again under the same key, it is not done again.", Schema: &huma.Schema{Type: huma.TypeString, MaxLength: &keyMost}}}
	}
	if c.sends != "" {
		op.RequestBody = &huma.RequestBody{Required: true, Content: map[string]*huma.MediaType{c.sends: {Schema: &huma.Schema{Type: huma.TypeString, Format: "binary"}}}}
	}
	status := c.status
	if status == 0 {
		status = http.StatusOK
	}
	switch {
	case c.answers != "":
		op.Responses[statusText(status)] = &huma.Response{Description: http.StatusText(status), Content: map[string]*huma.MediaType{"application/json": {Schema: c.answers.schema()}}}
	case c.media != "":
		whole := &huma.MediaType{Schema: &huma.Schema{Type: huma.TypeString}}
		if c.media == mediaPDF || c.media == mediaBackup {
			whole.Schema.Format = "binary"
		}
		op.Responses[statusText(status)] = &huma.Response{Description: http.StatusText(status), Content: map[string]*huma.MediaType{c.media: whole}}
	}
	return op
}

// describeBody says what a body is that a handler reads by itself.
func (c call) describeBody(op *huma.Operation) {
	if c.body != "" {
		op.RequestBody.Content["application/json"].Schema = c.body.schema()
	}
	if op.RequestBody != nil && c.open {
		op.RequestBody.Required = false
	}
}

// mayCome lets in who may, before anything is read.
func mayCome(ctx huma.Context, next func(huma.Context)) {
	need, _ := ctx.Operation().Metadata[keyNeed].(access.Deed)
	if need == "" {
		next(ctx)
		return
	}
	who := access.From(ctx.Context())
	switch err := who.May(need); {
	case err == nil:
		next(ctx)
	case who.Role == access.Nobody:
		ctx.SetHeader("WWW-Authenticate", `Bearer realm="foldwright"`)
		write(ctx, problemOf(http.StatusUnauthorized, "Nobody is logged in", fault.Fault{Code: gate.CodeNeedLogIn, Wrong: "this needs somebody who is logged in", Right: "log in, or send a token: Authorization: Bearer fw_…"}))
	default:
		write(ctx, problem{exchange.Problem(err)})
	}
}

// wantsMedia refuses bodies of another sort than the operation reads.
func wantsMedia(ctx huma.Context, next func(huma.Context)) {
	body := ctx.Operation().RequestBody
	sent, _, _ := strings.Cut(ctx.Header("Content-Type"), ";")
	sent = strings.ToLower(strings.TrimSpace(sent))
	if body == nil || sent == "" || body.Content[sent] != nil {
		next(ctx)
		return
	}
	var known []string
	for media := range body.Content {
		known = append(known, media)
	}
	slices.Sort(known)
	write(ctx, problemOf(http.StatusUnsupportedMediaType, "The body is of another sort", fault.Fault{Code: CodeMedia, Field: "Content-Type", Wrong: "a body of the sort " + clip(sent), Right: strings.Join(known, " or ")}))
}

// operationOf is an operation in the description.
func operationOf(item *huma.PathItem, method string) *huma.Operation {
	switch method {
	case http.MethodGet:
		return item.Get
	case http.MethodPut:
		return item.Put
	case http.MethodPost:
		return item.Post
	}
	return item.Delete
}

// leastRole names the least role that allows a deed.
func leastRole(d access.Deed) string {
	for _, r := range access.Roles() {
		if r.Allows(d) {
			return r.String()
		}
	}
	return ""
}
