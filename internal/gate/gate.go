// Package gate says who comes in over the network, and under which limits: log-in and sessions, tokens, rate limits, sizes
// and times, headers, request log, figures for watching.
//
// [Gate.Pages] and [Gate.API] wrap what is served behind them. Each request arrives there with its context signed
// ([access.With]) by the person of its session or the program of its token; the desk decides what they may. Nobody gets past the
// pages of the log-in, and of the API past its description.
//
// What a gate refuses it says as a problem document (RFC 9457) to programs and in a page to people.
package gate

import (
	"context"
	"crypto/rand"
	"errors"
	"log/slog"
	"net/http"
	"net/netip"
	"strings"
	"sync"
	"time"

	"github.com/alexedwards/scs/v2"

	"foldwright/internal/desk"
	"foldwright/internal/ledger"
)

// Sessions keep who is logged in. What they keep of a token must not let anybody in who reads it.
type Sessions interface {
	scs.CtxStore
	scs.IterableCtxStore
	Expire(ctx context.Context, now time.Time) error
}

// Keys remember what writes were answered, so that one that is sent again is not done again.
type Keys interface {
	Begin(ctx context.Context, a ledger.Attempt) (ledger.Standing, ledger.Answer, error)
	End(ctx context.Context, a ledger.Attempt, answer ledger.Answer) error
	Drop(ctx context.Context, a ledger.Attempt) error
}

// Config is what a gate is made of.
type Config struct {
	Desk     *desk.Desk
	Sessions Sessions
	Keys     Keys
	Log      *slog.Logger     // nil: nothing is logged
	Now      func() time.Time // nil: the wall clock
	Address  string           // where people reach the app, such as https://folding.example; for links
	Secure   bool             // people come over TLS only, here or at a proxy in front
	Proxies  []netip.Prefix   // whose word is taken for where a request comes from
	Limits   Limits
	SignOn   *SignOn // log-in by another system; nil: none
}

// Gate lets people and programs in. Make it with [New].
type Gate struct {
	desk     *desk.Desk
	store    Sessions
	keys     Keys
	log      *slog.Logger
	now      func() time.Time
	address  string
	secure   bool
	proxies  []netip.Prefix
	limits   limits
	sessions *scs.SessionManager
	origins  *http.CrossOriginProtection
	metrics  *metrics
	signOn   *signOn
	trouble  func(http.ResponseWriter, *http.Request, error)
	arrives  time.Duration // how long a body may take

	stopping  context.Context // ends when the server begins to stop
	stop      context.CancelFunc
	mu        sync.Mutex // guards stopping against work that begins
	at        sync.WaitGroup
	requestNo requestNumbers
}

// New makes a gate.
func New(c Config) (*Gate, error) {
	g := &Gate{
		desk: c.Desk, store: c.Sessions, keys: c.Keys, log: c.Log, now: c.Now, address: strings.TrimSuffix(c.Address, "/"), secure: c.Secure,
		proxies: c.Proxies, limits: newLimits(c.Limits), origins: http.NewCrossOriginProtection(), trouble: plainTrouble, arrives: arrives,
	}
	if g.log == nil {
		g.log = slog.New(slog.DiscardHandler)
	}
	if g.now == nil {
		g.now = time.Now
	}
	if c.Address != "" {
		if err := g.origins.AddTrustedOrigin(originOf(c.Address)); err != nil {
			return nil, err
		}
	}
	g.requestNo.begun = rand.Text()[:6] + "-"
	g.stopping, g.stop = context.WithCancel(context.Background())
	g.sessions = g.newSessions()
	g.metrics = newMetrics(g.desk, g.now)
	if c.SignOn != nil {
		var err error
		if g.signOn, err = newSignOn(*c.SignOn, c.Address); err != nil {
			return nil, err
		}
	}
	g.Background(g.tidy)
	return g, nil
}

// Address is where people reach the app, without a slash at its end: what links and QR codes on paper begin with.
func (g *Gate) Address() string { return g.address }

// Reached is where whoever sent a request reaches the app: as they came, or, where a proxy in front speaks TLS for us, at the
// address that was configured.
func (g *Gate) Reached(r *http.Request) string {
	switch {
	case r.TLS != nil:
		return "https://" + r.Host
	case g.secure:
		return g.address
	}
	return "http://" + r.Host
}

// ShowTrouble says how people are told what a gate refused: in a page, instead of in one line of text.
func (g *Gate) ShowTrouble(show func(w http.ResponseWriter, r *http.Request, err error)) {
	g.trouble = show
}

// Background runs something that outlasts the request that began it, until it is done or the server stops; then its context
// ends, and the server waits for it a while. When the server is stopping already it is not begun.
func (g *Gate) Background(run func(ctx context.Context)) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.stopping.Err() != nil {
		return
	}
	g.at.Go(func() {
		defer g.caught(g.stopping, "background work")
		run(g.stopping)
	})
}

// Stopping is closed when the server begins to stop: answers that never end by themselves end then.
func (g *Gate) Stopping() <-chan struct{} { return g.stopping.Done() }

// Stop ends the streams and the work in the background and waits for it until the context ends.
func (g *Gate) Stop(ctx context.Context) error {
	g.mu.Lock()
	g.stop()
	g.mu.Unlock()
	done := make(chan struct{})
	go func() {
		g.at.Wait()
		close(done)
	}()
	select {
	case <-done:
		return nil
	case <-ctx.Done():
		return errors.New("work in the background did not end in time")
	}
}

// tidyEvery is how often sessions that are over are taken away.
const tidyEvery = time.Hour

// tidy takes away sessions that are over, at the start and then every hour.
func (g *Gate) tidy(ctx context.Context) {
	tick := time.NewTicker(tidyEvery)
	defer tick.Stop()
	for {
		if err := g.store.Expire(ctx, g.now()); err != nil && ctx.Err() == nil {
			g.log.ErrorContext(ctx, "old sessions stay", "error", err)
		}
		select {
		case <-tick.C:
		case <-ctx.Done():
			return
		}
	}
}
