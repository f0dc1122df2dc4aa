package gate

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/alexedwards/scs/v2"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
)

// How long somebody stays logged in.
const (
	sessionIdle = 12 * time.Hour     // without a sign of life
	sessionLife = 7 * 24 * time.Hour // in all
	sessionNote = 5 * time.Minute    // how exactly the last sign of life is noted: each note is a write
)

// What a session holds.
const (
	inAccount = "account"
	inStamp   = "stamp" // of the password that was good at the log-in: with another one the session ends
	inID      = "id"    // by which the session is listed and ended
	inSince   = "since"
	inSeen    = "seen"
	inFrom    = "from"
	inAgent   = "agent"
)

// newSessions makes the manager of sessions. It does not hash tokens itself: the store keeps digests.
func (g *Gate) newSessions() *scs.SessionManager {
	m := scs.New()
	m.Store = g.store
	m.Lifetime = sessionLife
	m.Cookie.Name = "foldwright"
	if g.secure {
		m.Cookie.Name = "__Host-foldwright" // browsers take that from nobody but this very host, over TLS
	}
	m.Cookie.Secure = g.secure
	m.Cookie.SameSite = http.SameSiteLaxMode
	m.ErrorFunc = func(w http.ResponseWriter, r *http.Request, err error) { g.refuse(w, r, err) }
	return m
}

// resume finds the person of a session, and ends a session that is no longer good.
func (g *Gate) resume(ctx context.Context) (visitor, error) {
	name := g.sessions.GetString(ctx, inAccount)
	if name == "" {
		return visitor{}, nil
	}
	a, err := g.desk.Holder(ctx, name)
	if err != nil && !missing(err) {
		return visitor{}, err
	}
	now, seen := g.now(), time.Unix(g.sessions.GetInt64(ctx, inSeen), 0)
	if err != nil || a.Ended || stampOf(a.Hash) != g.sessions.GetString(ctx, inStamp) || now.Sub(seen) > sessionIdle {
		return visitor{}, g.sessions.Destroy(ctx)
	}
	if now.Sub(seen) > sessionNote {
		g.sessions.Put(ctx, inSeen, now.Unix())
	}
	return visitor{who: access.Who{Name: a.Name, Role: a.Role}, lang: a.Lang, inch: a.Inch}, nil
}

// LogIn lets somebody in by name and password. Whoever tries too often is refused without looking.
func (g *Gate) LogIn(w http.ResponseWriter, r *http.Request, name, password string) error {
	if err := g.tooManyLogIns(w, r, name); err != nil {
		return err
	}
	a, err := g.desk.LogIn(r.Context(), name, password)
	if err != nil {
		g.refusedLogIn(r, "password", name, err)
		return err
	}
	return g.begin(r, a)
}

// Welcome lets somebody in who uses an invitation up and chooses a password.
func (g *Gate) Welcome(w http.ResponseWriter, r *http.Request, secret, name, password string) error {
	if err := g.tooManyLogIns(w, r, ""); err != nil {
		return err
	}
	a, err := g.desk.ChoosePassword(r.Context(), secret, name, password)
	if err != nil {
		g.refusedLogIn(r, "invitation", name, err)
		return err
	}
	return g.begin(r, a)
}

// ChangePassword gives the asker another password. All their other sessions end.
func (g *Gate) ChangePassword(w http.ResponseWriter, r *http.Request, old, password string) error {
	who := access.From(r.Context())
	if err := g.tooManyLogIns(w, r, who.Name); err != nil {
		return err
	}
	if err := g.desk.ChangePassword(r.Context(), old, password); err != nil {
		return err
	}
	a, err := g.desk.Holder(r.Context(), who.Name)
	if err != nil {
		return err
	}
	g.sessions.Put(r.Context(), inStamp, stampOf(a.Hash))
	return g.sessions.RenewToken(r.Context())
}

// LogOut ends the session of a request.
func (g *Gate) LogOut(r *http.Request) error { return g.sessions.Destroy(r.Context()) }

// begin starts a session. It gets a token that nobody knew before the log-in.
func (g *Gate) begin(r *http.Request, a desk.Account) error {
	ctx := r.Context()
	kept, err := g.desk.Holder(ctx, a.Name)
	if err != nil {
		return err
	}
	if err := errors.Join(g.sessions.Clear(ctx), g.sessions.RenewToken(ctx)); err != nil {
		return err
	}
	now := g.now().Unix()
	for key, value := range map[string]any{
		inAccount: a.Name, inStamp: stampOf(kept.Hash), inID: rand.Text(), inSince: now, inSeen: now,
		inFrom: g.clientOf(r).String(), inAgent: short(r.UserAgent(), 200),
	} {
		g.sessions.Put(ctx, key, value)
	}
	noteOf(r).who = a.Name
	g.log.InfoContext(ctx, "logged in", "who", a.Name, "from", g.clientOf(r).String())
	return nil
}

// refusedLogIn counts and logs, without what was typed as a password. What was typed as a name may be one.
func (g *Gate) refusedLogIn(r *http.Request, by, name string, err error) {
	g.metrics.refused.WithLabelValues(by).Inc()
	if _, bad := g.desk.Holder(r.Context(), name); bad != nil {
		name = "no account"
	}
	g.log.WarnContext(r.Context(), "log-in refused", "by", by, "name", name, "from", g.clientOf(r).String(), "error", err)
}

// LoggedIn is a session as it may be shown.
type LoggedIn struct {
	ID      string
	Account string
	Since   time.Time
	Seen    time.Time // about when there was a sign of life last
	From    string    // the address at the log-in
	Agent   string    // what the browser called itself
	This    bool      // the one that asks
}

// LoggedIn lists the sessions of an account, the newest first: one's own, or, for who rules, anybody's; of all with an empty name.
func (g *Gate) LoggedIn(ctx context.Context, account string) ([]LoggedIn, error) {
	who := access.From(ctx)
	if account == "" || who.Name != account || who.By != "" {
		if err := who.May(access.Rule); err != nil {
			return nil, err
		}
	}
	byToken, err := g.listed(ctx)
	var list []LoggedIn
	for _, s := range byToken {
		if account == "" || s.Account == account {
			list = append(list, s)
		}
	}
	slices.SortFunc(list, func(a, b LoggedIn) int {
		if c := b.Since.Compare(a.Since); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	return list, err
}

// EndLogIn ends a session: one's own, or, for who rules, anybody's.
func (g *Gate) EndLogIn(ctx context.Context, id string) error {
	who := access.From(ctx)
	if err := who.May(access.See); err != nil {
		return err
	}
	byToken, err := g.listed(ctx)
	if err != nil {
		return err
	}
	for token, s := range byToken {
		if s.ID == id && (s.Account == who.Name && who.By == "" || who.May(access.Rule) == nil) {
			return g.store.DeleteCtx(ctx, token)
		}
	}
	return fault.Fault{Kind: fault.Missing, Code: CodeSession, Field: "session", Wrong: "there is no such session", Right: "one from the list; it may have ended by itself"}
}

// CodeSession is the code of a session that is not there.
const CodeSession fault.Code = "no-session"

// listed reads all sessions, by what the store lists in the place of their tokens.
func (g *Gate) listed(ctx context.Context) (map[string]LoggedIn, error) {
	kept, err := g.store.AllCtx(ctx)
	if err != nil {
		return nil, err
	}
	this, zone := "", time.UTC
	if ctx.Value(visitorKey{}) != nil && visitorOf(ctx).who.By == "" {
		this = g.sessions.GetString(ctx, inID)
	}
	list := map[string]LoggedIn{}
	for token, data := range kept {
		_, values, err := g.sessions.Codec.Decode(data)
		if err != nil {
			return nil, err
		}
		text := func(key string) string { t, _ := values[key].(string); return t }
		moment := func(key string) time.Time { n, _ := values[key].(int64); return time.Unix(n, 0).In(zone) }
		s := LoggedIn{ID: text(inID), Account: text(inAccount), Since: moment(inSince), Seen: moment(inSeen), From: text(inFrom), Agent: text(inAgent)}
		if s.Account != "" && g.now().Sub(s.Seen) <= sessionIdle {
			s.This = s.ID == this
			list[token] = s
		}
	}
	return list, nil
}

// stampOf tells one password's hash from another and says nothing else of it.
func stampOf(hash string) string {
	sum := sha256.Sum256([]byte("session " + hash))
	return hex.EncodeToString(sum[:8])
}

func missing(err error) bool {
	all := fault.All(err)
	return len(all) > 0 && all[0].Kind == fault.Missing
}

// short cuts a text of a stranger's to what is worth keeping.
func short(text string, most int) string {
	text = strings.ToValidUTF8(text, "")
	if len(text) > most {
		text = strings.ToValidUTF8(text[:most], "")
	}
	return text
}
