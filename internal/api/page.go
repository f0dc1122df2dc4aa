package api

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html/template"
	"net/http"
	"slices"
	"strings"

	"github.com/danielgtaylor/huma/v2"
)

//go:embed page.html
var pageText string

//go:embed page.css
var pageStyle string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// pagePolicy lets the page wear its own style and nothing else.
var pagePolicy = func() string {
	sum := sha256.Sum256([]byte(pageStyle))
	return "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
}()

type (
	group struct {
		Name, About string
		Calls       []listed
	}

	listed struct {
		ID, Method, Path, Says, Role string
		Body                         string // the schema of it
		Params                       []*huma.Param
	}
)

// pageOf is the list of the operations for people.
func pageOf(o *huma.OpenAPI) []byte {
	byTag := map[string][]listed{}
	for path, item := range o.Paths {
		for _, method := range []string{http.MethodGet, http.MethodPost, http.MethodPut, http.MethodDelete} {
			if op := operationOf(item, method); op != nil {
				byTag[op.Tags[0]] = append(byTag[op.Tags[0]], listedOf(op, method, path))
			}
		}
	}
	var groups []group
	for _, t := range tags {
		calls := byTag[t[0]]
		slices.SortFunc(calls, func(a, b listed) int { return strings.Compare(a.Path+" "+a.Method, b.Path+" "+b.Method) })
		groups = append(groups, group{t[0], t[1], calls})
	}
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, map[string]any{"Prefix": Prefix, "Groups": groups, "Style": template.CSS(pageStyle), "About": o.Info.Description}); err != nil {
		panic(err) // our own template
	}
	return b.Bytes()
}

func listedOf(op *huma.Operation, method, path string) listed {
	l := listed{ID: op.OperationID, Method: method, Path: path, Says: op.Summary, Params: op.Parameters}
	l.Role, _ = op.Extensions["x-least-role"].(string)
	if op.RequestBody != nil {
		for _, media := range op.RequestBody.Content {
			if media.Schema != nil {
				l.Body = strings.TrimPrefix(media.Schema.Ref, "#/components/schemas/")
			}
		}
	}
	return l
}

func (d document) servePage(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Security-Policy", pagePolicy)
	serve(w, r, "text/html; charset=utf-8", d.page)
}
