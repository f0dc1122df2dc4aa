package exchange

import (
	"encoding/json"
	"strings"
	"time"

	whose "foldwright/internal/access"
	"foldwright/internal/shop"
	speech "foldwright/internal/words"
)

// Account is somebody who can log in, as the use cases show it: nothing here tells a password.
type Account struct {
	Name    string
	Role    whose.Role
	Lang    string
	Inch    *bool
	Since   time.Time
	Ended   bool
	Chosen  bool
	Version int64
}

// Token is a token as the use cases show it: nothing here lets anybody in.
type Token struct {
	ID      string
	Name    string
	Account string
	Role    whose.Role
	Since   time.Time
	Until   time.Time
	Used    time.Time
}

// Accounts is how an account stands in JSON.
func Accounts() Document[Account] { return accountDocument }

// Tokens is how a token stands in JSON.
func Tokens() Document[Token] { return tokenDocument }

// NewToken is a token with its secret, for the one time at which that is told.
func NewToken(t Token, secret string, s *shop.Shop) json.RawMessage {
	n := tokenDocument.shape.write(writingIn(s), t)
	told := scalar(secret)
	told.Tag = "!!str"
	n.Content = append(n.Content, scalar("secret"), told)
	return jsonOf(n)
}

var accountDocument = documentOf(record[Account]{what: "an account", fields: []field[Account]{
	need("name", "the name to log in with", words, in(func(a *Account) *string { return &a.Name })),
	need("role", "what the person may do", role, in(func(a *Account) *whose.Role { return &a.Role })),
	may("lang", "the language of the pages; without it the browser's wish", lang, "", in(func(a *Account) *string { return &a.Lang })),
	maybe("units", "in what lengths are shown; without it as the shop counts", measure, func(a *Account) **bool { return &a.Inch }),
	may("ended", "whether the account lets nobody in any more", yes, false, in(func(a *Account) *bool { return &a.Ended })),
	ours(maybeInstant("since", "when it was made", func(a *Account) *time.Time { return &a.Since })),
	ours(may("chosen", "whether a password was chosen", yes, false, in(func(a *Account) *bool { return &a.Chosen }))),
	ours(may("version", "which version of it this is", version, 0, in(func(a *Account) *int64 { return &a.Version }))),
}})

var tokenDocument = documentOf(record[Token]{what: "a token", fields: []field[Token]{
	ours(may("id", "the token", words, "", in(func(t *Token) *string { return &t.ID }))),
	need("name", "what the program is called", words, in(func(t *Token) *string { return &t.Name })),
	may("account", "under whose name it comes in; without it your own", words, "", in(func(t *Token) *string { return &t.Account })),
	need("role", "what it may do, at most as much as the account", role, in(func(t *Token) *whose.Role { return &t.Role })),
	maybeInstant("until", "when it ends; without it: when it is taken back", func(t *Token) *time.Time { return &t.Until }),
	ours(maybeInstant("since", "when it was made", func(t *Token) *time.Time { return &t.Since })),
	ours(maybeInstant("used", "about when it was used last", func(t *Token) *time.Time { return &t.Used })),
}})

// role is a role that somebody can be given.
var role = func() shape[whose.Role] {
	meaning, names := map[string]whose.Role{}, []string{}
	for _, r := range whose.Roles() {
		meaning[r.String()], names = r, append(names, r.String())
	}
	return word(orOf(names), meaning, names)
}()

// lang is a language that the pages speak.
var lang = func() shape[string] {
	meaning, names := map[string]string{}, []string{}
	for _, l := range speech.Langs() {
		meaning[string(l)], names = string(l), append(names, string(l))
	}
	return word(orOf(names), meaning, names)
}()

func orOf(names []string) string {
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
