package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"sync/atomic"
	"time"
)

// server is the other end.
type server struct {
	url, token string
	http       *http.Client
}

// answer is what came back.
type answer struct {
	status int
	etag   string
	body   []byte
}

// ask sends one request.
func (s *server) ask(ctx context.Context, method, path string, body any, header ...string) (answer, error) {
	var content io.Reader
	if body != nil {
		data, err := json.Marshal(body)
		if err != nil {
			return answer{}, err
		}
		content = bytes.NewReader(data)
	}
	r, err := http.NewRequestWithContext(ctx, method, s.url+"/api/v1"+path, content)
	if err != nil {
		return answer{}, err
	}
	r.Header.Set("Authorization", "Bearer "+s.token)
	if body != nil {
		r.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	got, err := s.http.Do(r)
	if err != nil {
		return answer{}, err
	}
	data, err := io.ReadAll(got.Body)
	return answer{got.StatusCode, got.Header.Get("ETag"), data}, errors.Join(err, got.Body.Close())
}

// names are the jobs and sets that the clients ask about.
type names struct{ jobs, sets []string }

func (s *server) names(ctx context.Context) (n names, err error) {
	if n.jobs, err = s.list(ctx, "/jobs"); err == nil {
		n.sets, err = s.list(ctx, "/sets")
	}
	return n, err
}

func (s *server) list(ctx context.Context, path string) ([]string, error) {
	got, err := s.ask(ctx, http.MethodGet, path+"?limit=500", nil)
	if err != nil {
		return nil, err
	}
	var page struct {
		Items []struct {
			Name string `json:"name"`
		} `json:"items"`
	}
	if err := json.Unmarshal(got.body, &page); err != nil || got.status != http.StatusOK || len(page.Items) == 0 {
		return nil, fmt.Errorf("GET %s answered %d %.200s; start the server with a shop and give a token of a lead", path, got.status, got.body)
	}
	var all []string
	for _, i := range page.Items {
		all = append(all, url.PathEscape(i.Name))
	}
	return all, nil
}

// searching keeps a search going, one after another, and counts those that were begun.
func (s *server) searching(ctx context.Context, begun *atomic.Int64) {
	for ctx.Err() == nil {
		got, err := s.ask(ctx, http.MethodPost, "/searches", map[string]any{"seconds": 20, "seed": 1})
		if err == nil && got.status == http.StatusAccepted {
			begun.Add(1)
		}
		select {
		case <-ctx.Done():
		case <-time.After(time.Second): // while one goes on the others are refused, which is what we want
		}
	}
}
