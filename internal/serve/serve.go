// Package serve puts the doors and the store together: one server that starts and stops in good order.
//
// [New] opens the store, brings its tables up to date and listens; from then on the address is known. [Server.Run] serves until
// its context ends. Then the server says that it is not ready any more, ends searches (what they found is kept) and streams,
// lets requests come to their end, and closes the store.
package serve

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"os"
	"strings"
	"sync/atomic"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/api"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/gate"
	"foldwright/internal/store"
	"foldwright/internal/ui"
)

// CodeListen is the code of an address at which nothing can be served.
const CodeListen fault.Code = "listen"

// Config says what is served, where and to whom.
type Config struct {
	Shop    string // a database file or postgres:// URL; with Demo it is not looked at
	Demo    bool   // serve the demo shop from a directory that is gone afterwards
	Listen  string // host:port
	Cert    string // files with certificate and key; both or neither
	Key     string
	Address string         // how people reach it, when not at the address it listens at
	Proxies []netip.Prefix // whose word is taken for where a request comes from
	SignOn  *gate.SignOn
	Limits  gate.Limits
	Log     *slog.Logger // nil: nothing is logged
	Now     func() time.Time
}

// How long things may take.
const (
	headersArrive = 10 * time.Second
	idleAfter     = 2 * time.Minute
	stopsWithin   = 15 * time.Second
	headersMost   = 32 << 10
)

// Server is a server that listens already.
type Server struct {
	desk     *desk.Desk
	gate     *gate.Gate
	store    *store.Store
	http     *http.Server
	listener net.Listener
	address  string
	where    string
	log      *slog.Logger
	discard  func() error // of what goes with the server
	stopping atomic.Bool
}

// New opens the store and listens.
func New(ctx context.Context, c Config) (s *Server, err error) {
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	s = &Server{log: c.Log, discard: func() error { return nil }}
	defer func() {
		if err != nil {
			err = errors.Join(err, s.Close())
			s = nil
		}
	}()
	if s.listener, err = listen(ctx, c); err != nil {
		return s, err
	}
	if s.address = strings.TrimSuffix(c.Address, "/"); s.address == "" {
		s.address = addressOf(s.listener.Addr(), c.Cert != "")
	}
	if err = s.open(ctx, c); err != nil {
		return s, err
	}
	s.gate, err = gate.New(gate.Config{
		Desk: s.desk, Sessions: s.store.Sessions(), Keys: s.store.Keys(), Log: c.Log, Now: c.Now, Address: s.address,
		Secure: strings.HasPrefix(s.address, "https://"), Proxies: c.Proxies, Limits: c.Limits, SignOn: c.SignOn,
	})
	if err != nil {
		return s, err
	}
	s.http = &http.Server{
		Handler: s.routes(), ReadHeaderTimeout: headersArrive, IdleTimeout: idleAfter, MaxHeaderBytes: headersMost,
		ErrorLog: slog.NewLogLogger(c.Log.Handler(), slog.LevelDebug), // strangers that speak no TLS are no news
	}
	if c.Cert != "" {
		if s.http.TLSConfig, err = certified(c.Cert, c.Key, c.Log); err != nil {
			return s, err
		}
	}
	s.warn(c)
	return s, nil
}

// open opens the store, of the demo with the shop in it, and makes the desk.
func (s *Server) open(ctx context.Context, c Config) (err error) {
	where := c.Shop
	if c.Demo {
		if where, s.discard, err = demoPlace(); err != nil {
			return err
		}
	}
	if s.store, err = store.Open(ctx, where, store.Options{Now: c.Now}); err != nil {
		return err
	}
	s.where = s.store.Where()
	s.desk = &desk.Desk{Store: s.store, Books: s.store, Vault: s.store, Now: c.Now, Random: rand.Reader}
	if c.Demo {
		s.where = "the demo shop"
		return fillDemo(ctx, s)
	}
	return nil
}

// routes put the doors beside each other.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.Handle("/api/v1/", s.gate.API(api.New(s.desk, s.gate)))
	mux.Handle("/", s.gate.Pages(ui.New(s.desk, s.gate)))
	mux.Handle("GET /healthz", s.gate.Watched(http.HandlerFunc(s.lives)))
	mux.Handle("GET /readyz", s.gate.Watched(http.HandlerFunc(s.ready)))
	mux.Handle("GET /metrics", s.gate.Metrics())
	return mux
}

// Address is where people reach the server.
func (s *Server) Address() string { return s.address }

// Where names the database.
func (s *Server) Where() string { return s.where }

// Desk is the desk that is asked, for whoever starts the server.
func (s *Server) Desk() *desk.Desk { return s.desk }

// FirstLink is the link for the first admin; empty when somebody can log in already.
func (s *Server) FirstLink(ctx context.Context) (string, error) {
	secret, err := s.desk.FirstInvitation(access.With(ctx, access.Who{Name: "first start", Role: access.Admin}))
	if err != nil || secret == "" {
		return "", err
	}
	return Link(s.address, secret), nil
}

// Link is where somebody chooses a password with an invitation.
func Link(address, secret string) string {
	return strings.TrimSuffix(address, "/") + gate.WelcomePath + "?secret=" + secret
}

// Run serves until the context ends, then stops in good order.
func (s *Server) Run(ctx context.Context) error {
	ended := make(chan error, 1)
	wind := context.AfterFunc(ctx, func() { ended <- s.windDown(context.WithoutCancel(ctx)) })
	var err error
	if s.http.TLSConfig != nil {
		err = s.http.ServeTLS(s.listener, "", "")
	} else {
		err = s.http.Serve(s.listener)
	}
	if errors.Is(err, http.ErrServerClosed) {
		err = <-ended
	} else {
		wind()
	}
	return errors.Join(err, s.Close())
}

// windDown ends what goes on and waits for it, but not for ever.
func (s *Server) windDown(ctx context.Context) error {
	s.stopping.Store(true)
	s.log.InfoContext(ctx, "stopping")
	ctx, cancel := context.WithTimeout(ctx, stopsWithin)
	defer cancel()
	err := errors.Join(s.gate.Stop(ctx), s.http.Shutdown(ctx))
	if err != nil {
		s.log.WarnContext(ctx, "not everything ended in time", "error", err)
		return s.http.Close()
	}
	return nil
}

// Close gives back all that a server took which does not run, or no longer.
func (s *Server) Close() (err error) {
	if s.listener != nil {
		if e := s.listener.Close(); !errors.Is(e, net.ErrClosed) {
			err = e
		}
	}
	if s.gate != nil { // the work in the background asks the store
		ctx, cancel := context.WithTimeout(context.Background(), stopsWithin)
		defer cancel()
		err = errors.Join(err, s.gate.Stop(ctx))
	}
	if s.store != nil {
		err = errors.Join(err, s.store.Close())
	}
	return errors.Join(err, s.discard())
}

// warn says what should not stay as it is.
func (s *Server) warn(c Config) {
	host, _, _ := net.SplitHostPort(s.listener.Addr().String())
	at, err := netip.ParseAddr(host)
	if (err != nil || !at.IsLoopback()) && !strings.HasPrefix(s.address, "https://") {
		s.log.Warn("passwords and sessions go over the network for everybody to read; give a certificate, or put a proxy with one in front", "listen", c.Listen)
	}
}

// lives says that the process does.
func (s *Server) lives(w http.ResponseWriter, _ *http.Request) { fmt.Fprintln(w, "alive") }

// readyWithin is how long the store may take to answer.
const readyWithin = 2 * time.Second

// ready says whether requests are answered: the store is, and the server is not about to stop.
func (s *Server) ready(w http.ResponseWriter, r *http.Request) {
	ctx, cancel := context.WithTimeout(r.Context(), readyWithin)
	defer cancel()
	if s.stopping.Load() {
		w.WriteHeader(http.StatusServiceUnavailable)
		fmt.Fprintln(w, "stopping")
		return
	}
	if _, err := s.store.Snapshot(ctx); err != nil {
		gate.Failed(r, err)
		w.WriteHeader(http.StatusServiceUnavailable)
		fmt.Fprintln(w, "the store does not answer")
		return
	}
	fmt.Fprintln(w, "ready")
}

// listen listens at the address; the demo does so on this machine only, and where it finds room.
func listen(ctx context.Context, c Config) (net.Listener, error) {
	no := func(wrong, right string) error {
		return fault.Fault{Kind: fault.Input, Code: CodeListen, Field: "listen", Wrong: wrong, Right: right}
	}
	host, _, err := net.SplitHostPort(c.Listen)
	if err != nil {
		return nil, no(fmt.Sprintf("%q is no address to listen at", c.Listen), "a host and a port, such as 127.0.0.1:8642")
	}
	if (c.Cert == "") != (c.Key == "") {
		return nil, no("a certificate without its key, or the other way round", "both files, or neither")
	}
	at, err := netip.ParseAddr(host)
	if c.Demo && (err != nil || !at.IsLoopback()) {
		return nil, no("the demo is for this machine only: its passwords stand on the terminal", "an address such as 127.0.0.1:8642")
	}
	var lc net.ListenConfig
	l, err := lc.Listen(ctx, "tcp", c.Listen)
	if err != nil && c.Demo {
		l, err = lc.Listen(ctx, "tcp", net.JoinHostPort(host, "0"))
	}
	if err != nil {
		return nil, no(fmt.Sprintf("%s cannot be listened at: %v", c.Listen, cause(err)), "an address of this machine and a port that nobody else has")
	}
	return l, nil
}

// cause is what the system said, without what we knew.
func cause(err error) error {
	var op *net.OpError
	if errors.As(err, &op) {
		return op.Err
	}
	return err
}

// addressOf is where people reach a listener. One at all addresses of the machine is reached by its name.
func addressOf(at net.Addr, tls bool) string {
	scheme := "http://"
	if tls {
		scheme = "https://"
	}
	host, port, _ := net.SplitHostPort(at.String())
	if ip, err := netip.ParseAddr(host); err == nil && ip.IsUnspecified() {
		if host, err = os.Hostname(); err != nil {
			host = "localhost"
		}
	}
	return scheme + net.JoinHostPort(host, port)
}
