package api

import (
	"context"
	"encoding/json"
	"net/http"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
)

func (a *API) tokens() {
	register(a, call{id: "list-tokens", method: http.MethodGet, path: "/tokens", tag: "people", says: "List your tokens; who rules sees all", need: access.See, answers: "TokenPage"}, a.listTokens)
	register(a, call{id: "add-token", method: http.MethodPost, path: "/tokens", tag: "people", says: "Make a token for a program; its secret is told this once", need: access.See, body: "Token", answers: "NewToken", status: http.StatusCreated}, a.addToken)
	register(a, call{id: "remove-token", method: http.MethodDelete, path: "/tokens/{id}", tag: "people", says: "Take a token back", need: access.See},
		func(ctx context.Context, in *struct {
			ID string `path:"id" maxLength:"60"`
		},
		) (*struct{}, error) {
			return nil, a.desk.RemoveToken(ctx, in.ID)
		})
}

func (a *API) listTokens(ctx context.Context, in *listIn) (*listOut, error) {
	all, err := a.desk.Tokens(ctx)
	if err != nil {
		return nil, err
	}
	s, err := a.shopIfAny(ctx)
	if err != nil {
		return nil, err
	}
	part, more, err := page(all, in.Paging, func(t desk.Token) string { return t.ID })
	if err != nil {
		return nil, err
	}
	next := ""
	if more {
		next = nextPage("/tokens", in.Paging, part[len(part)-1].ID, nil)
	}
	return pageOfDocuments(part, next, func(t desk.Token) json.RawMessage { return exchange.Tokens().Write(exchange.Token(t), s) })
}

func (a *API) addToken(ctx context.Context, in *Sent) (*valueOut, error) {
	if err := inPersonOrRule(ctx); err != nil {
		return nil, err
	}
	s, err := a.shopIfAny(ctx)
	if err != nil {
		return nil, err
	}
	ask, err := exchange.Tokens().Read(in.RawBody, s)
	if err != nil {
		return nil, err
	}
	if ask.Account == "" {
		ask.Account = access.From(ctx).Name
	}
	secret, made, err := a.desk.MakeToken(ctx, ask.Account, ask.Name, ask.Role, ask.Until)
	if err != nil {
		return nil, err
	}
	return &valueOut{Status: http.StatusCreated, Location: Prefix + "/tokens/" + made.ID, Body: exchange.NewToken(exchange.Token(made), secret, s)}, nil
}

// newTokenSchema is a token with its secret.
func newTokenSchema() map[string]any {
	s := plainOf(exchange.Tokens().Schema())
	s["properties"].(map[string]any)["secret"] = map[string]any{"type": "string", "description": "what the program sends; told this once"}
	return s
}
