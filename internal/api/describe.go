package api

import (
	"bytes"
	"encoding/json"
	"maps"
	"net/http"

	"github.com/danielgtaylor/huma/v2"
	"go.yaml.in/yaml/v4"

	"foldwright/internal/exchange"
)

// config is how the library shall answer: JSON only, no scripts from outside, nothing added to answers.
func config() huma.Config {
	c := huma.DefaultConfig("foldwright", "1")
	c.Info.Description = "Everything that the pages of foldwright can do: folders, sets, jobs, settings, plans, records. " +
		"Lengths in millimetres, times in minutes, as the names of the fields say. Errors are problem documents (RFC 9457) that name the field. " +
		"A change says with If-Match which version it was made on. With an Idempotency-Key a POST, PUT or DELETE can be sent again without happening twice."
	c.CreateHooks, c.DocsPath, c.OpenAPIPath, c.SchemasPath = nil, "", "", ""
	c.NoFormatFallback = false
	c.Components.SecuritySchemes = map[string]*huma.SecurityScheme{
		"session": {Type: "apiKey", In: "cookie", Name: sessionCookie, Description: "Somebody who has logged in."},
		"token":   {Type: "http", Scheme: "bearer", Description: "A program with a token: Authorization: Bearer fw_…"},
	}
	for _, t := range tags {
		c.Tags = append(c.Tags, &huma.Tag{Name: t[0], Description: t[1]})
	}
	return c
}

// document is the description as it is served.
type document struct {
	json, yaml, page []byte
}

// describe makes the document of what is registered. The schemas of things and records are those of the room that reads them.
func (a *API) describe() document {
	both := a.answerSchemas() // before the rest: it names more of them
	whole := plainOf(a.huma.OpenAPI())
	schemas := whole["components"].(map[string]any)["schemas"].(map[string]any)
	for _, k := range kinds {
		schemas[string(k.schema)] = plainOf(exchange.ThingSchema(k.Kind))
		if !k.Alone() {
			schemas[string(k.schema)+"Page"] = pageSchema(k.schema, true)
		}
	}
	for name, of := range map[ref]map[string]any{
		"Record": exchange.Records().Schema(), "Account": exchange.Accounts().Schema(), "Token": exchange.Tokens().Schema(),
	} {
		schemas[string(name)] = plainOf(of)
		schemas[string(name)+"Page"] = pageSchema(name, false)
	}
	schemas["NewToken"] = plainOf(newTokenSchema())
	maps.Copy(schemas, both)
	return document{json: indented(whole), yaml: yamlOf(whole), page: pageOf(a.huma.OpenAPI())}
}

// pageSchema is the schema of a page of a list; things stand in it with name and version.
func pageSchema(of ref, named bool) map[string]any {
	item := map[string]any{"$ref": "#/components/schemas/" + string(of)}
	if named {
		item = object(map[string]any{"name": typed("string"), "version": typed("integer"), "value": item}, "name", "version", "value")
	}
	return object(map[string]any{"items": map[string]any{"type": "array", "items": item}, "next": typed("string")}, "items")
}

func object(fields map[string]any, needed ...string) map[string]any {
	return map[string]any{"type": "object", "additionalProperties": false, "properties": fields, "required": needed}
}

func typed(t string) map[string]any { return map[string]any{"type": t} }

// plainOf is a value as JSON has it.
func plainOf(v any) map[string]any {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err) // our own description
	}
	var out map[string]any
	if err := json.Unmarshal(data, &out); err != nil {
		panic(err)
	}
	return out
}

func indented(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func yamlOf(v any) []byte {
	data, err := yaml.Marshal(v)
	if err != nil {
		panic(err)
	}
	return data
}

func (d document) serveJSON(w http.ResponseWriter, r *http.Request) {
	serve(w, r, "application/openapi+json", d.json)
}

func (d document) serveYAML(w http.ResponseWriter, r *http.Request) {
	serve(w, r, "application/openapi+yaml", d.yaml)
}

// serve answers with what does not change while the program runs.
func serve(w http.ResponseWriter, r *http.Request, media string, data []byte) {
	tag := etagOf(data)
	w.Header().Set("ETag", tag)
	w.Header().Set("Cache-Control", "no-cache")
	if (IfNoneMatch{r.Header.Get("If-None-Match")}).has(tag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	w.Header().Set("Content-Type", media)
	_, _ = w.Write(data) // the asker may be gone
}
