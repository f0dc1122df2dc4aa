// Command webload plays a whole shop at once: many clients that read and write through the API while a plan is searched, and
// prints how long the answers took. It is the load tool behind make bench-web.
package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"net/http"
	"os"
	"os/signal"
	"sync"
	"time"
)

// settings are what the command line says.
type settings struct {
	url, token string
	clients    int
	lasting    time.Duration
	pause      time.Duration
	seed       uint64
	search     bool
	most       time.Duration
}

func main() {
	var s settings
	flag.StringVar(&s.url, "url", "http://127.0.0.1:8642", "where the server listens")
	flag.StringVar(&s.token, "token", os.Getenv("FOLDWRIGHT_TOKEN"), "a token with the role lead (or FOLDWRIGHT_TOKEN)")
	flag.IntVar(&s.clients, "clients", 200, "clients at once")
	flag.DurationVar(&s.lasting, "time", time.Minute, "how long")
	flag.DurationVar(&s.pause, "pause", 500*time.Millisecond, "the mean pause of a client between an answer and its next question")
	flag.Uint64Var(&s.seed, "seed", 1, "of the order in which clients ask")
	flag.BoolVar(&s.search, "search", true, "keep a plan being searched all the while")
	flag.DurationVar(&s.most, "most", 250*time.Millisecond, "the 99th percentile that is allowed; 0 = any")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	err := run(ctx, s)
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run lets the clients work and prints the table.
func run(ctx context.Context, s settings) error {
	transport := &http.Transport{MaxIdleConnsPerHost: s.clients + 1}
	to := &server{url: s.url, token: s.token, http: &http.Client{Transport: transport, Timeout: 30 * time.Second}}
	names, err := to.names(ctx)
	if err != nil {
		return err
	}
	ctx, end := context.WithTimeout(ctx, s.lasting)
	defer end()
	var all tally
	if s.search {
		go to.searching(ctx, &all.searches)
	}
	var clients sync.WaitGroup
	began := time.Now()
	for i := range s.clients {
		c := &client{server: to, names: names, tally: &all, number: i, began: began.UnixNano(), dice: rand.New(rand.NewPCG(s.seed, uint64(i))), pause: s.pause}
		clients.Go(func() { c.work(ctx) })
	}
	clients.Wait()
	return all.print(os.Stdout, s, time.Since(began))
}
