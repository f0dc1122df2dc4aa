package api

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// Thing is a thing with its version, as lists and answers have it.
type Thing struct {
	Name    string          `json:"name" doc:"What it is called; empty for what a shop has one of."`
	Version int64           `json:"version" doc:"Of the last change; also the ETag."`
	Value   json.RawMessage `json:"value" doc:"The thing itself, in the fields of the shop file."`
}

type (
	listIn struct{ Paging }

	// listOut is a page of things.
	listOut struct {
		Link string `header:"Link"`
		Body json.RawMessage
	}

	// Named is one thing of a kind.
	Named struct {
		Name string `path:"name" doc:"Its name, percent-encoded."`
	}

	getIn struct {
		Named
		IfNoneMatch
	}

	// Sent is a body that the handler reads by itself.
	Sent struct {
		RawBody []byte `contentType:"application/json"`
	}

	putIn struct {
		Named
		IfMatch
		Sent
	}

	removeIn struct {
		Named
		IfMatch
	}

	placeIn struct {
		Named
		Body struct {
			AheadOf string `json:"ahead_of" doc:"The one that it shall stand just ahead of; empty: at the end."`
		} `nameHint:"PlaceAsk"`
	}

	// valueOut is a thing by itself.
	valueOut struct {
		Status   int
		ETag     string `header:"ETag"`
		Location string `header:"Location"`
		Body     json.RawMessage
	}

	thingOut struct {
		ETag     string `header:"ETag"`
		Location string `header:"Location"`
		Body     Thing
	}
)

// things registers the one pattern for every kind.
func (a *API) things() {
	for _, k := range kinds {
		if k.Alone() {
			a.alone(k)
			continue
		}
		need := desk.Editing(k.Kind)
		tag := k.path
		register(a, call{id: "list-" + k.path, method: http.MethodGet, path: "/" + k.path, tag: tag, says: "List " + k.many, need: access.See, answers: k.schema + "Page"},
			func(ctx context.Context, in *listIn) (*listOut, error) { return a.list(ctx, k, in.Paging) })
		register(a, call{id: "add-" + k.path, method: http.MethodPost, path: "/" + k.path, tag: tag, says: "Add " + k.one, need: need, body: k.schema, answers: k.schema, status: http.StatusCreated},
			func(ctx context.Context, in *Sent) (*valueOut, error) { return a.add(ctx, k, in.RawBody) })
		register(a, call{id: "get-" + k.path, method: http.MethodGet, path: "/" + k.path + "/{name}", tag: tag, says: "Read " + k.one, need: access.See, answers: k.schema},
			func(ctx context.Context, in *getIn) (*valueOut, error) { return a.get(ctx, k, in.Name, in.IfNoneMatch) })
		register(a, call{id: "put-" + k.path, method: http.MethodPut, path: "/" + k.path + "/{name}", tag: tag, says: "Change " + k.one, need: need, body: k.schema, answers: k.schema},
			func(ctx context.Context, in *putIn) (*valueOut, error) {
				return a.put(ctx, k, in.Name, in.IfMatch, in.RawBody)
			})
		register(a, call{id: "remove-" + k.path, method: http.MethodDelete, path: "/" + k.path + "/{name}", tag: tag, says: "Take " + k.one + " out of the shop", need: need},
			func(ctx context.Context, in *removeIn) (*struct{}, error) {
				return a.remove(ctx, k, in.Name, in.IfMatch)
			})
		register(a, call{id: "place-" + k.path, method: http.MethodPost, path: "/" + k.path + "/{name}/place", tag: tag, says: "Put " + k.one + " elsewhere in the list", need: need},
			func(ctx context.Context, in *placeIn) (*thingOut, error) {
				return a.place(ctx, k, in.Name, in.Body.AheadOf)
			})
	}
}

// alone registers what a shop has one of.
func (a *API) alone(k kind) {
	register(a, call{id: "get-" + k.path, method: http.MethodGet, path: "/" + k.path, tag: "shop", says: "Read " + k.one, need: access.See, answers: k.schema},
		func(ctx context.Context, in *IfNoneMatch) (*valueOut, error) { return a.get(ctx, k, "", *in) })
	register(a, call{id: "put-" + k.path, method: http.MethodPut, path: "/" + k.path, tag: "shop", says: "Change " + k.one, need: desk.Editing(k.Kind), body: k.schema, answers: k.schema},
		func(ctx context.Context, in *struct {
			IfMatch
			Sent
		},
		) (*valueOut, error) {
			return a.put(ctx, k, "", in.IfMatch, in.RawBody)
		})
}

func (a *API) list(ctx context.Context, k kind, p Paging) (*listOut, error) {
	now, err := a.desk.Snapshot(ctx)
	if err != nil {
		return nil, err
	}
	values := ledger.Values(now.Shop, k.Kind)
	all := make([]desk.Thing, len(values))
	for i, t := range now.Tags(k.Kind) {
		all[i] = desk.Thing{Tag: t, Value: values[i]}
	}
	part, more, err := page(all, p, func(t desk.Thing) string { return t.Name })
	if err != nil {
		return nil, err
	}
	out := struct {
		Items []Thing `json:"items"`
		Next  string  `json:"next,omitempty"`
	}{Items: make([]Thing, len(part))}
	for i, t := range part {
		out.Items[i] = Thing{t.Name, t.Version, exchange.WriteThing(k.Kind, t.Value, now.Shop)}
	}
	if more {
		out.Next = nextPage("/"+k.path, p, part[len(part)-1].Name, nil)
	}
	body, err := json.Marshal(out)
	return &listOut{Link: link(out.Next), Body: body}, err
}

func (a *API) get(ctx context.Context, k kind, name string, has IfNoneMatch) (*valueOut, error) {
	t, err := a.desk.Thing(ctx, k.Kind, name)
	if err != nil {
		return nil, err
	}
	out, err := a.answer(ctx, k, t)
	if err == nil && has.has(out.ETag) {
		out.Status, out.Body = http.StatusNotModified, nil
	}
	return out, err
}

func (a *API) add(ctx context.Context, k kind, body []byte) (*valueOut, error) {
	value, err := a.read(ctx, k, body)
	if err != nil {
		return nil, err
	}
	t, err := a.desk.Add(ctx, k.Kind, value)
	if err != nil {
		return nil, a.within(ctx, k, "", err)
	}
	return a.created(ctx, k, t)
}

func (a *API) put(ctx context.Context, k kind, name string, m IfMatch, body []byte) (*valueOut, error) {
	tag, err := a.tag(ctx, k, name, m)
	if err != nil {
		return nil, err
	}
	value, err := a.read(ctx, k, body)
	if err != nil {
		return nil, err
	}
	t, err := a.desk.Put(ctx, tag, value)
	if err != nil {
		return nil, stale(a.within(ctx, k, name, err))
	}
	out, err := a.answer(ctx, k, t)
	if err == nil && t.Name != name {
		out.Location = k.address(t.Name)
	}
	return out, err
}

func (a *API) remove(ctx context.Context, k kind, name string, m IfMatch) (*struct{}, error) {
	tag, err := a.tag(ctx, k, name, m)
	if err != nil {
		return nil, err
	}
	return nil, stale(a.desk.Remove(ctx, tag))
}

func (a *API) place(ctx context.Context, k kind, name, ahead string) (*thingOut, error) {
	t, err := a.desk.Thing(ctx, k.Kind, name)
	if err != nil {
		return nil, err
	}
	var behind ledger.Tag
	if ahead != "" {
		other, err := a.desk.Thing(ctx, k.Kind, ahead)
		if err != nil {
			return nil, fault.List{renamed(err, "ahead_of")}
		}
		behind = other.Tag
	}
	moved, err := a.desk.Move(ctx, t.Tag, behind)
	if err != nil {
		return nil, err
	}
	return a.thing(ctx, k, moved)
}

// renamed is the first fault of an error under the field that the client sent.
func renamed(err error, field string) fault.Fault {
	found := fault.All(err)
	if len(found) == 0 {
		panic(fmt.Sprintf("api: no fault: %v", err))
	}
	f := found[0]
	f.Field = field
	return f
}

// tag is a thing in the version that the client changed.
func (a *API) tag(ctx context.Context, k kind, name string, m IfMatch) (ledger.Tag, error) {
	t, err := a.desk.Thing(ctx, k.Kind, name)
	if err != nil {
		return ledger.Tag{}, err
	}
	t.Tag.Version, err = m.version()
	return t.Tag, err
}

// read reads a thing as the shop writes lengths, times and stocks.
func (a *API) read(ctx context.Context, k kind, body []byte) (any, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	return exchange.ReadThing(k.Kind, body, s)
}

// within turns faults of the whole shop into those of the thing at hand.
func (a *API) within(ctx context.Context, k kind, name string, err error) error {
	found := fault.All(err)
	s, no := a.desk.Shop(ctx)
	if len(found) == 0 || no != nil {
		return err
	}
	at := len(ledger.Values(s, k.Kind))
	if name != "" {
		at = exchange.At(s, k.Kind, name)
	}
	return exchange.FieldsWithin(k.Kind, at, found)
}

// answer is a thing by itself with its version.
func (a *API) answer(ctx context.Context, k kind, t desk.Thing) (*valueOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	return &valueOut{Status: http.StatusOK, ETag: etag(t.Version), Body: exchange.WriteThing(k.Kind, t.Value, s)}, nil
}

// created is a thing that is new.
func (a *API) created(ctx context.Context, k kind, t desk.Thing) (*valueOut, error) {
	out, err := a.answer(ctx, k, t)
	if err == nil {
		out.Status, out.Location = http.StatusCreated, k.address(t.Name)
	}
	return out, err
}

// thing is a thing with its name and version.
func (a *API) thing(ctx context.Context, k kind, t desk.Thing) (*thingOut, error) {
	out, err := a.answer(ctx, k, t)
	if err != nil {
		return nil, err
	}
	return &thingOut{ETag: out.ETag, Location: k.address(t.Name), Body: Thing{t.Name, t.Version, out.Body}}, nil
}
