package plan

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"foldwright/internal/schedule"
	"foldwright/internal/shop"
)

// Chances tell how likely a plan holds when minutes scatter: what came of so many days that were simulated. The order, the
// sets and the bench work are those of the plan; whatever ends sooner or later lets the next start sooner or later, inside
// working hours.
//
// Every make-ready, run and piece of bench work takes the minutes of the plan times a factor of its own, log-normal about
// 1 with the shop's spread, as often above as below. The factors hang on the seed, the day and the job alone: two plans of
// one shop meet the same days, so what they differ by is due to the plans.
type Chances struct {
	Samples   int
	Seed      uint64
	Spread    shop.Spread
	Jobs      []Chance      // by folder and place
	LateJobs  float64       // a day on average
	Late      time.Duration // a day on average, without the weights of dockets
	AllOnTime float64       // the share of days on which no job is late
}

// Chance is what became of a job. A time is zero when the job does not end within the hours that the plan looks ahead to.
type Chance struct {
	Job, Folder         string
	Due                 time.Time // zero when it has none; then it is always on time
	OnTime              float64   // the share of days
	Error               float64   // the standard error of that share
	Early, Middle, Tail time.Time // it ends before then on 10, 50, 90 days of 100
}

// Chances simulates so many days of a plan of this shop; nil when it is none of this shop.
func (p *Prepared) Chances(pl *Plan, samples int, seed uint64) *Chances {
	at, err := p.as(pl)
	if err != nil || samples < 1 {
		return nil
	}
	read, err := at.read(pl.order)
	if err != nil {
		return nil
	}
	c := &Chances{Samples: samples, Seed: seed, Spread: p.shop.House.Spread}
	found := at.work(read.order, read.wishes)
	ends := p.simulate(found.Plan, at, c)
	for m, lane := range found.Tasks {
		for _, task := range lane {
			c.Jobs = append(c.Jobs, p.chance(task.Job, m, ends[task.Job]))
		}
	}
	return c
}

// simulate lets the days pass and returns when each job ends on each.
func (p *Prepared) simulate(plan *schedule.Plan, at *Prepared, c *Chances) [][]schedule.Time {
	net := newNetwork(plan, at.translation, p.root().translation)
	ends := make([][]schedule.Time, len(p.jobs))
	var late schedule.Time
	lateJobs, calm := 0, 0
	sigma := [kinds]float64{sigmaOf(c.Spread.Makeready), sigmaOf(c.Spread.Run), sigmaOf(c.Spread.Bench)}
	factors := make([][kinds]int64, len(p.jobs))
	for day := range c.Samples {
		luck := rand.New(rand.NewPCG(c.Seed, uint64(day)))
		for j := range factors {
			for k, s := range sigma {
				factors[j][k] = int64(math.Round(1000 * math.Exp(s*luck.NormFloat64())))
			}
		}
		net.pass(factors)
		before := lateJobs
		for _, a := range net.runs {
			end := net.activities[a].end
			ends[net.activities[a].job] = append(ends[net.activities[a].job], end)
			if over := end - p.problem.Jobs[net.activities[a].job].Due; over > 0 {
				lateJobs++
				late += min(over, schedule.Time(farthest/time.Second))
			}
		}
		if lateJobs == before {
			calm++
		}
	}
	n := float64(c.Samples)
	c.LateJobs, c.AllOnTime = float64(lateJobs)/n, float64(calm)/n
	c.Late = time.Duration(float64(late) / n * float64(time.Second)).Round(time.Second)
	return ends
}

// sigmaOf is the standard deviation of the logarithm of a log-normal factor, of its coefficient of variation.
func sigmaOf(spread float64) float64 { return math.Sqrt(math.Log(1 + spread*spread)) }

// chance sums up when a job ended.
func (p *Prepared) chance(j, m int, ends []schedule.Time) Chance {
	slices.Sort(ends)
	out := Chance{Job: p.jobs[j].Name, Folder: p.folder(m).Name, Due: p.jobs[j].Due}
	in, _ := slices.BinarySearch(ends, p.problem.Jobs[j].Due+1)
	n := float64(len(ends))
	out.OnTime = float64(in) / n
	out.Error = math.Sqrt(out.OnTime * (1 - out.OnTime) / n)
	at := func(share float64) time.Time {
		if end := ends[int(share*float64(len(ends)-1))]; end < schedule.Forever {
			return p.clock(end)
		}
		return time.Time{}
	}
	out.Early, out.Middle, out.Tail = at(0.1), at(0.5), at(0.9)
	return out
}
