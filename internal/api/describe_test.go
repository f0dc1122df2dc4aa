package api_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"foldwright/internal/access"
	"foldwright/internal/api"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/gate"
)

var update = flag.Bool("update", false, "write the golden files anew")

// schemas is the description, ready to hold answers to it.
type schemas struct {
	document map[string]any
	compiler *jsonschema.Compiler
	routes   []route
	compiled map[string]*jsonschema.Schema
}

// route is an operation of the description.
type route struct {
	id, method, path string
	pattern          *regexp.Regexp
	responses        map[string]any
}

// description is the document as it is served.
func description(t testing.TB) []byte {
	t.Helper()
	d := &desk.Desk{}
	g, err := gate.New(gate.Config{Desk: d, Sessions: noSessions{}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { g.Stop(t.Context()) })
	w := serve(api.New(d, g), http.MethodGet, "/openapi.json")
	if w.Code != http.StatusOK {
		t.Fatalf("the description: %d %s", w.Code, w.Body)
	}
	return w.Body.Bytes()
}

func described(t testing.TB) *schemas {
	t.Helper()
	s := &schemas{compiler: jsonschema.NewCompiler(), compiled: map[string]*jsonschema.Schema{}}
	whole, err := jsonschema.UnmarshalJSON(bytes.NewReader(description(t)))
	if err != nil {
		t.Fatal(err)
	}
	s.document = whole.(map[string]any)
	s.compiler.DefaultDraft(jsonschema.Draft2020)
	if err := s.compiler.AddResource("https://foldwright.invalid/openapi.json", whole); err != nil {
		t.Fatal(err)
	}
	for path, item := range s.document["paths"].(map[string]any) {
		for method, op := range item.(map[string]any) {
			o := op.(map[string]any)
			parts := strings.Split(path, "/")
			for i, p := range parts {
				if strings.HasPrefix(p, "{") {
					parts[i] = "[^/]+"
				} else {
					parts[i] = regexp.QuoteMeta(p)
				}
			}
			s.routes = append(s.routes, route{
				id: o["operationId"].(string), method: strings.ToUpper(method), path: path,
				pattern: regexp.MustCompile("^" + api.Prefix + strings.Join(parts, "/") + "$"), responses: o["responses"].(map[string]any),
			})
		}
	}
	// what is spelt out comes before what has a place for a name
	slices.SortFunc(s.routes, func(a, b route) int {
		if n := strings.Count(a.path, "{") - strings.Count(b.path, "{"); n != 0 {
			return n
		}
		return strings.Compare(a.path+a.method, b.path+b.method)
	})
	return s
}

// hold checks that an answer is one of those that the description promises.
func (s *schemas) hold(t testing.TB, r *http.Request, a answer) {
	t.Helper()
	for _, o := range s.routes {
		if o.method == r.Method && o.pattern.MatchString(r.URL.EscapedPath()) {
			s.holdRoute(t, o, a)
			return
		}
	}
}

func (s *schemas) holdRoute(t testing.TB, o route, a answer) {
	t.Helper()
	status := fmt.Sprint(a.StatusCode)
	if a.StatusCode == http.StatusNotModified {
		if len(a.body) > 0 {
			t.Errorf("%s: 304 with a body", o.id)
		}
		return
	}
	response, known := o.responses[status].(map[string]any)
	if !known {
		if a.StatusCode < 400 {
			t.Errorf("%s: the description knows no %s", o.id, status)
			return
		}
		status, response = "default", o.responses["default"].(map[string]any)
	}
	content, _ := response["content"].(map[string]any)
	if len(content) == 0 {
		if len(a.body) > 0 {
			t.Errorf("%s: %s with a body that the description does not know: %.100s", o.id, status, a.body)
		}
		return
	}
	media, _, _ := strings.Cut(a.Header.Get("Content-Type"), ";")
	if content[media] == nil {
		t.Errorf("%s: %s of the sort %q, the description knows %v", o.id, status, media, slices.Collect(maps.Keys(content)))
		return
	}
	if media == "application/json" || media == exchange.ProblemMedia {
		s.holdBody(t, o, status, media, a.body)
	}
}

func (s *schemas) holdBody(t testing.TB, o route, status, media string, body []byte) {
	t.Helper()
	at := strings.Join([]string{"paths", escaped(o.path), strings.ToLower(o.method), "responses", status, "content", escaped(media), "schema"}, "/")
	schema := s.compiled[at]
	if schema == nil {
		var err error
		if schema, err = s.compiler.Compile("https://foldwright.invalid/openapi.json#/" + at); err != nil {
			t.Fatalf("%s: %v", o.id, err)
		}
		s.compiled[at] = schema
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(body))
	if err != nil {
		t.Errorf("%s: %.200s: %v", o.id, body, err)
		return
	}
	if err := schema.Validate(value); err != nil {
		t.Errorf("%s: the answer %.300s is not as described: %v", o.id, body, err)
	}
}

// escaped is a name inside a JSON pointer that stands in a fragment.
func escaped(name string) string {
	return strings.NewReplacer("~", "~0", "/", "~1", "{", "%7B", "}", "%7D", "+", "%2B").Replace(name)
}

// The description is a golden file, so that a change of the API is seen in a diff.
func TestDescriptionIsGolden(t *testing.T) {
	got := description(t)
	golden := filepath.Join("testdata", "openapi.json")
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("the API is another one (run with -update if that is meant):\n%s", diff)
	}
}

// The schema of OpenAPI 3.1 itself is that of the OpenAPI Initiative (spec.openapis.org/oas/3.1/schema/2022-10-07); what it asks
// of an operation, of a parameter and of a reference is held here by hand, from memory.
func TestDescriptionIsOpenAPI(t *testing.T) {
	s := described(t)
	if v := s.document["openapi"]; v != "3.1.0" {
		t.Errorf("openapi is %v", v)
	}
	seen := map[string]bool{}
	for _, o := range s.routes {
		if seen[o.id] {
			t.Errorf("two operations %s", o.id)
		}
		seen[o.id] = true
		op := s.document["paths"].(map[string]any)[o.path].(map[string]any)[strings.ToLower(o.method)].(map[string]any)
		holdParameters(t, o, op)
		if op["summary"] == "" || len(op["tags"].([]any)) != 1 || len(o.responses) < 2 {
			t.Errorf("%s wants a summary, one tag and what it answers", o.id)
		}
	}
	holdReferences(t, s.document, s.document, "#")
	for name := range s.document["components"].(map[string]any)["schemas"].(map[string]any) {
		if _, err := s.compiler.Compile("https://foldwright.invalid/openapi.json#/components/schemas/" + escaped(name)); err != nil {
			t.Errorf("schema %s: %v", name, err)
		}
	}
}

// holdParameters checks that every place in a path is described, and needed.
func holdParameters(t *testing.T, o route, op map[string]any) {
	t.Helper()
	in := map[string]bool{}
	list, _ := op["parameters"].([]any)
	for _, p := range list {
		param := p.(map[string]any)
		if param["in"] == "path" {
			in[param["name"].(string)] = param["required"] == true
		}
		if param["schema"] == nil {
			t.Errorf("%s: %v has no schema", o.id, param["name"])
		}
	}
	for _, name := range regexp.MustCompile(`\{([^}]+)\}`).FindAllStringSubmatch(o.path, -1) {
		if !in[name[1]] {
			t.Errorf("%s: %s of the path is not described", o.id, name[1])
		}
	}
}

// holdReferences follows every reference.
func holdReferences(t *testing.T, whole map[string]any, v any, path string) {
	t.Helper()
	switch v := v.(type) {
	case map[string]any:
		if to, ok := v["$ref"].(string); ok {
			at := any(whole)
			for part := range strings.SplitSeq(strings.TrimPrefix(to, "#/"), "/") {
				m, _ := at.(map[string]any)
				at = m[part]
			}
			if at == nil {
				t.Errorf("%s leads to %s, where nothing is", path, to)
			}
		}
		for k, inner := range v {
			holdReferences(t, whole, inner, path+"/"+k)
		}
	case []any:
		for i, inner := range v {
			holdReferences(t, whole, inner, fmt.Sprintf("%s/%d", path, i))
		}
	}
}

func TestDescriptionAsYAMLAndPage(t *testing.T) {
	d := open(t)
	var fromYAML, fromJSON any
	yamlText := d.send(ask{method: http.MethodGet, path: "/openapi.yaml"}).want(t, http.StatusOK)
	if err := yaml.Unmarshal(yamlText.body, &fromYAML); err != nil {
		t.Fatal(err)
	}
	jsonText := d.send(ask{method: http.MethodGet, path: "/openapi.json"}).want(t, http.StatusOK)
	if err := json.Unmarshal(jsonText.body, &fromJSON); err != nil {
		t.Fatal(err)
	}
	again, err := json.Marshal(fromYAML)
	if err != nil {
		t.Fatal(err)
	}
	var both any
	if err := json.Unmarshal(again, &both); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(fromJSON, both); diff != "" {
		t.Errorf("YAML and JSON differ:\n%s", diff)
	}
	page := d.send(ask{method: http.MethodGet, path: "/", as: access.Viewer}).want(t, http.StatusOK)
	if policy := page.Header.Get("Content-Security-Policy"); !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") {
		t.Errorf("the page comes under %q", policy)
	}
	if strings.Contains(string(page.body), "<script") {
		t.Error("the page runs scripts")
	}
	for _, o := range d.schema.routes {
		if !strings.Contains(string(page.body), `<tr id="`+o.id+`">`) {
			t.Errorf("the page does not tell of %s", o.id)
		}
	}
	kept := d.send(ask{method: http.MethodGet, path: "/openapi.json", head: map[string]string{"If-None-Match": jsonText.Header.Get("ETag")}})
	kept.want(t, http.StatusNotModified)
}
