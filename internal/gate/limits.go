package gate

import (
	"net/http"
	"time"

	"github.com/go-chi/httprate"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
)

// CodeTooMany is the code of what is asked too often.
const CodeTooMany fault.Code = "too-many"

// Limits are how often something may be asked; 0 is the usual, below 0 is without limit.
type Limits struct {
	LogInsByAddress int // in a minute
	LogInsByName    int // in an hour
	Calls           int // of the API in a minute, by account and token
}

// usualLimits are generous to people and programs that do their work, and hopeless for guessing.
var usualLimits = Limits{LogInsByAddress: 10, LogInsByName: 20, Calls: 600}

// limits count. They live in memory: a second server counts for itself.
type limits struct {
	byAddress, byName, calls *httprate.RateLimiter // nil: without limit
}

func newLimits(l Limits) limits {
	limiter := func(asked, usual int, in time.Duration) *httprate.RateLimiter {
		if asked < 0 {
			return nil
		}
		if asked == 0 {
			asked = usual
		}
		return httprate.NewRateLimiter(asked, in, httprate.WithResponseHeaders(httprate.ResponseHeaders{RetryAfter: "Retry-After"}))
	}
	return limits{
		byAddress: limiter(l.LogInsByAddress, usualLimits.LogInsByAddress, time.Minute),
		byName:    limiter(l.LogInsByName, usualLimits.LogInsByName, time.Hour),
		calls:     limiter(l.Calls, usualLimits.Calls, time.Minute),
	}
}

// tooManyLogIns counts a log-in and says when there were too many: of an address, or for a name, from wherever they came.
func (g *Gate) tooManyLogIns(w http.ResponseWriter, r *http.Request, name string) error {
	over := full(g.limits.byAddress, w, r, "address "+g.clientOf(r).String())
	if name = desk.AccountName(name); !over && name != "" {
		over = full(g.limits.byName, w, r, "name "+name)
	}
	if !over {
		return nil
	}
	g.metrics.refused.WithLabelValues("too-many").Inc()
	g.log.WarnContext(r.Context(), "too many log-ins", "from", g.clientOf(r).String())
	return fault.Fault{Kind: fault.Denied, Code: CodeTooMany, Wrong: "too many attempts to log in", Right: "wait a while, then try again"}
}

// tooMany counts a call of the API.
func (g *Gate) tooMany(w http.ResponseWriter, r *http.Request) error {
	who := access.From(r.Context())
	key := "who " + who.String()
	if who.Role == access.Nobody {
		key = "address " + g.clientOf(r).String()
	}
	if !full(g.limits.calls, w, r, key) {
		return nil
	}
	return fault.Fault{Kind: fault.Denied, Code: CodeTooMany, Wrong: "too many calls in a minute", Right: "wait as many seconds as the header Retry-After says"}
}

func full(l *httprate.RateLimiter, w http.ResponseWriter, r *http.Request, key string) bool {
	return l != nil && l.OnLimit(w, r, key)
}
