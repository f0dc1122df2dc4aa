package gate

import (
	"context"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// metrics are the figures for watching, on a registry of their own.
type metrics struct {
	registry *prometheus.Registry
	requests *prometheus.CounterVec
	took     *prometheus.HistogramVec
	inFlight prometheus.Gauge
	refused  *prometheus.CounterVec
	panics   prometheus.Counter
}

func newMetrics(d *desk.Desk, now func() time.Time) *metrics {
	m := &metrics{
		registry: prometheus.NewRegistry(),
		requests: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "foldwright_http_requests_total", Help: "Requests that were answered."}, []string{"route", "method", "status"}),
		took: prometheus.NewHistogramVec(prometheus.HistogramOpts{
			Name: "foldwright_http_request_seconds", Help: "How long answers took.", Buckets: []float64{.001, .0025, .005, .01, .025, .05, .1, .25, .5, 1, 2.5, 10},
		}, []string{"route", "method"}),
		inFlight: prometheus.NewGauge(prometheus.GaugeOpts{Name: "foldwright_http_in_flight", Help: "Requests that are being answered."}),
		refused:  prometheus.NewCounterVec(prometheus.CounterOpts{Name: "foldwright_log_ins_refused_total", Help: "Log-ins and tokens that let nobody in."}, []string{"by"}),
		panics:   prometheus.NewCounter(prometheus.CounterOpts{Name: "foldwright_panics_total", Help: "Faults of the program that were caught."}),
	}
	m.registry.MustRegister(m.requests, m.took, m.inFlight, m.refused, m.panics,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}), &shopFigures{desk: d, now: now})
	for _, by := range []string{"password", "invitation", "token", "sign-on", "too-many"} {
		m.refused.WithLabelValues(by) // a figure that is 0 is there
	}
	return m
}

// observe counts a request. Methods that nobody uses are one, or strangers could make figures without end.
func (m *metrics) observe(route, method, outcome string, took time.Duration) {
	switch method {
	case http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut, http.MethodPatch, http.MethodDelete, http.MethodOptions:
	default:
		method = "other"
	}
	if route == "" {
		route = "none"
	}
	m.requests.WithLabelValues(route, method, outcome).Inc()
	m.took.WithLabelValues(route, method).Observe(took.Seconds())
}

// Metrics serves the figures to this machine itself, and to tokens and people who rule.
func (g *Gate) Metrics() http.Handler {
	figures := promhttp.HandlerFor(g.metrics.registry, promhttp.HandlerOpts{})
	asked := g.sessions.LoadAndSave(g.signed(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if err := access.From(r.Context()).May(access.Rule); err != nil {
			Refuse(w, r, err)
			return
		}
		figures.ServeHTTP(w, r)
	})))
	return g.Watched(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if direct(r) {
			figures.ServeHTTP(w, r)
			return
		}
		asked.ServeHTTP(w, r)
	}))
}

// shopFigures are read from the desk when somebody asks.
type shopFigures struct {
	desk *desk.Desk
	now  func() time.Time
}

var (
	storeUp      = prometheus.NewDesc("foldwright_store_up", "1 when the store answers.", nil, nil)
	searchesNow  = prometheus.NewDesc("foldwright_searches_running", "Searches for a better order that go on.", nil, nil)
	revisionNow  = prometheus.NewDesc("foldwright_store_revision", "The number of the last change.", nil, nil)
	revisionAge  = prometheus.NewDesc("foldwright_store_revision_age_seconds", "How long ago the last change was made.", nil, nil)
	jobsNow      = prometheus.NewDesc("foldwright_jobs_waiting", "Jobs that are not done.", nil, nil)
	collectFor   = 5 * time.Second
	shopFigureOf = []*prometheus.Desc{storeUp, searchesNow, revisionNow, revisionAge, jobsNow}
)

// Describe names the figures.
func (f *shopFigures) Describe(to chan<- *prometheus.Desc) {
	for _, d := range shopFigureOf {
		to <- d
	}
}

// Collect reads them.
func (f *shopFigures) Collect(to chan<- prometheus.Metric) {
	ctx, cancel := context.WithTimeout(access.With(context.Background(), access.Who{Name: "metrics", Role: access.Admin}), collectFor)
	defer cancel()
	tell := func(d *prometheus.Desc, v float64) {
		to <- prometheus.MustNewConstMetric(d, prometheus.GaugeValue, v)
	}
	running := 0
	if list, err := f.desk.Searchings(ctx); err == nil {
		for _, s := range list {
			if at, _ := s.State(); !at.Done {
				running++
			}
		}
	}
	tell(searchesNow, float64(running))
	now, err := f.desk.Books.Snapshot(ctx)
	if err != nil && len(fault.All(err)) == 0 {
		tell(storeUp, 0)
		return
	}
	tell(storeUp, 1)
	if err != nil {
		return
	}
	tell(revisionNow, float64(now.Revision))
	if now.Shop != nil {
		tell(jobsNow, float64(len(now.Shop.Jobs)))
	}
	if last, err := f.desk.Books.History(ctx, ledger.Page{Limit: 1}); err == nil && len(last) > 0 {
		tell(revisionAge, f.now().Sub(last[0].At).Seconds())
	}
}
