package api

import (
	"context"
	"encoding/json"
	"net/http"
	"net/url"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/exchange"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

type (
	recordsIn struct {
		Paging
		Job    string    `query:"job" maxLength:"200"`
		Folder string    `query:"folder" maxLength:"200"`
		From   time.Time `query:"from" doc:"Only what began then or later."`
		To     time.Time `query:"to" doc:"Only what began before then."`
	}

	// RecordID is one record.
	RecordID struct {
		ID string `path:"id" maxLength:"60"`
	}

	getRecordIn struct {
		RecordID
		IfNoneMatch
	}

	putRecordIn struct {
		RecordID
		IfMatch
		Sent
	}
)

func (a *API) records() {
	register(a, call{id: "list-records", method: http.MethodGet, path: "/records", tag: "records", says: "List what the floor recorded, the newest start first", need: access.See, answers: "RecordPage"}, a.listRecords)
	register(a, call{id: "add-record", method: http.MethodPost, path: "/records", tag: "records", says: "Record a make-ready and a run", need: access.Record, body: "Record", answers: "Record", status: http.StatusCreated}, a.addRecord)
	register(a, call{id: "get-record", method: http.MethodGet, path: "/records/{id}", tag: "records", says: "Read a record", need: access.See, answers: "Record"}, a.getRecord)
	register(a, call{id: "record-past", method: http.MethodGet, path: "/records/{id}/past", tag: "records", says: "Every version of a record, the newest first", need: access.See, answers: "RecordPage"}, a.recordPast)
	register(a, call{id: "put-record", method: http.MethodPut, path: "/records/{id}", tag: "records", says: "Correct or complete a record", need: access.Record, body: "Record", answers: "Record"}, a.putRecord)
}

func (a *API) listRecords(ctx context.Context, in *recordsIn) (*listOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	list, err := a.desk.Records(ctx, ledger.RecordQuery{Job: in.Job, Folder: in.Folder, From: in.From, To: in.To, After: in.After, Most: in.Limit + 1})
	if err != nil {
		return nil, err
	}
	next := ""
	if len(list) > in.Limit {
		list = list[:in.Limit]
		next = nextPage("/records", in.Paging, list[in.Limit-1].ID, in.wishes())
	}
	return pageOfDocuments(list, next, func(r ledger.Record) json.RawMessage { return exchange.Records().Write(r, s) })
}

// wishes are those that the next page has too.
func (in *recordsIn) wishes() url.Values {
	q := url.Values{}
	for name, value := range map[string]string{"job": in.Job, "folder": in.Folder} {
		if value != "" {
			q.Set(name, value)
		}
	}
	for name, at := range map[string]time.Time{"from": in.From, "to": in.To} {
		if !at.IsZero() {
			q.Set(name, at.Format(time.RFC3339Nano))
		}
	}
	return q
}

// pageOfDocuments is a page of a list of documents.
func pageOfDocuments[T any](list []T, next string, write func(T) json.RawMessage) (*listOut, error) {
	out := struct {
		Items []json.RawMessage `json:"items"`
		Next  string            `json:"next,omitempty"`
	}{make([]json.RawMessage, len(list)), next}
	for i, v := range list {
		out.Items[i] = write(v)
	}
	body, err := json.Marshal(out)
	return &listOut{Link: link(next), Body: body}, err
}

func (a *API) addRecord(ctx context.Context, in *Sent) (*valueOut, error) {
	r, s, err := a.readRecord(ctx, in.RawBody)
	if err != nil {
		return nil, err
	}
	if r, err = a.desk.AddRecord(ctx, r); err != nil {
		return nil, err
	}
	out := recordAnswer(r, s)
	out.Status, out.Location = http.StatusCreated, Prefix+"/records/"+url.PathEscape(r.ID)
	return out, nil
}

func (a *API) getRecord(ctx context.Context, in *getRecordIn) (*valueOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	r, err := a.desk.Record(ctx, in.ID)
	if err != nil {
		return nil, err
	}
	out := recordAnswer(r, s)
	if in.has(out.ETag) {
		out.Status, out.Body = http.StatusNotModified, nil
	}
	return out, nil
}

func (a *API) recordPast(ctx context.Context, in *RecordID) (*listOut, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return nil, err
	}
	list, err := a.desk.RecordPast(ctx, in.ID)
	if err != nil {
		return nil, err
	}
	return pageOfDocuments(list, "", func(r ledger.Record) json.RawMessage { return exchange.Records().Write(r, s) })
}

func (a *API) putRecord(ctx context.Context, in *putRecordIn) (*valueOut, error) {
	if _, err := a.desk.Record(ctx, in.ID); err != nil {
		return nil, err
	}
	version, err := in.version()
	if err != nil {
		return nil, err
	}
	r, s, err := a.readRecord(ctx, in.RawBody)
	if err != nil {
		return nil, err
	}
	r.ID, r.Version = in.ID, version
	if r, err = a.desk.PutRecord(ctx, r); err != nil {
		return nil, stale(err)
	}
	return recordAnswer(r, s), nil
}

func (a *API) readRecord(ctx context.Context, body []byte) (ledger.Record, *shop.Shop, error) {
	s, err := a.desk.Shop(ctx)
	if err != nil {
		return ledger.Record{}, nil, err
	}
	r, err := exchange.Records().Read(body, s)
	return r, s, err
}

func recordAnswer(r ledger.Record, s *shop.Shop) *valueOut {
	return &valueOut{Status: http.StatusOK, ETag: etag(r.Version), Body: exchange.Records().Write(r, s)}
}
