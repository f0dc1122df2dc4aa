package plan_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"foldwright/internal/exchange"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
)

// varied draws a shop from a seed; false when what comes out is none.
func varied(t *testing.T, seed int) (*plan.Prepared, bool) {
	t.Helper()
	written := rapid.Custom(func(r *rapid.T) []byte {
		s, err := exchange.ReadShop("shop.yaml", read(t, "testdata/workshop.yaml"))
		if err != nil {
			r.Fatal(err)
		}
		vary(r, s)
		return exchange.WriteShop(s)
	}).Example(seed)
	s, err := exchange.ReadShop("varied.yaml", written)
	if err != nil {
		return nil, false
	}
	p, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	return p, true
}

// Goal: what is simulated is the plan: on a day on which everything takes its minutes, all is as planned, to the second.
func TestADayWithoutSurprisesIsThePlan(t *testing.T) {
	for name, file := range shops(t) {
		p, _ := prepared(t, file)
		day, err := p.Search(t.Context(), nil, plan.Options{Seed: 4, Iterations: 1500})
		if err != nil {
			t.Fatal(err)
		}
		p.Replay(day, func(format string, args ...any) { t.Errorf(name+": "+format, args...) })
	}
	for seed := range 150 {
		if p, ok := varied(t, seed); ok {
			day, err := p.Search(t.Context(), nil, plan.Options{Seed: 4, Iterations: 50})
			if err != nil {
				t.Fatal(err)
			}
			p.Replay(day, func(format string, args ...any) { t.Errorf(format, args...) })
		}
	}
}

// normal is the distribution function of the standard normal distribution.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// below is the probability that a log-normal factor about 1 with a coefficient of variation is at most x.
func below(x, spread float64) float64 {
	if x <= 0 {
		return 0
	}
	return normal(math.Log(x) / math.Sqrt(math.Log(1+spread*spread)))
}

// sumBelow is the probability that minutes a and b, each times a log-normal factor, come to at most limit. Method: the
// convolution as a sum over the quantiles of the first.
func sumBelow(a, b, limit, spreadA, spreadB float64) float64 {
	const steps = 4000
	sigma := math.Sqrt(math.Log(1 + spreadA*spreadA))
	sum := 0.0
	for i := range steps {
		q := (float64(i) + 0.5) / steps
		factor := math.Exp(sigma * math.Sqrt2 * math.Erfinv(2*q-1))
		sum += below((limit-a*factor)/b, spreadB)
	}
	return sum / steps
}

// alone is a shop of one folder that never rests, with spreads of its own.
func alone(t *testing.T, spread shop.Spread, jobs string) *plan.Prepared {
	t.Helper()
	file := string(read(t, "testdata/workshop.yaml"))
	old := file[strings.Index(file, "jobs:"):strings.Index(file, "done:")]
	file = strings.Replace(file, old, "jobs:\n"+jobs+"\n", 1)
	file = strings.Replace(file, "      mon-fri: 06:00-09:00, 09:15-14:00, 14:15-18:00, 18:30-22:00\n", "      mon-sun: 00:00-24:00\n", 1)
	s, err := exchange.ReadShop("shop.yaml", []byte(file))
	if err != nil {
		t.Fatal(err)
	}
	s.House.Spread = spread
	p, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Goal: the chance of one job is that of the closed form, and that of two in a row that of the convolution. Method: four
// standard errors of the simulation are allowed; the seed is fixed.
func TestChanceAgainstClosedForm(t *testing.T) {
	const samples = 40000
	for _, spread := range []shop.Spread{{Run: 0.1}, {Run: 0.5}, {Makeready: 0.4}, {Makeready: 0.25, Run: 0.1}} {
		for _, hour := range []string{"06:40", "06:55", "07:10", "07:30"} {
			p := alone(t, spread, `  - {name: "1", sheet: 600 x 420, stock: offset 90, fold: "up 1/2", sheets: 8000, due: 2026-03-27 `+hour+`, given: elder, pin: {folder: elder}}`)
			day, err := p.Evaluate(p.Given())
			if err != nil {
				t.Fatal(err)
			}
			task := taskIn(t, day, "1")
			setup, run, limit := task.Makeready.Minutes(), task.Run.Minutes(), task.Due.Sub(day.From).Minutes()
			var want float64
			switch {
			case spread.Makeready == 0:
				want = below((limit-setup)/run, spread.Run)
			case spread.Run == 0:
				want = below((limit-run)/setup, spread.Makeready)
			default:
				want = sumBelow(setup, run, limit, spread.Makeready, spread.Run)
			}
			agree(t, p.Chances(day, samples, 11), "1", want)
		}
	}
}

// agree holds the chance of a job to what it should be.
func agree(t *testing.T, c *plan.Chances, job string, want float64) {
	t.Helper()
	for _, x := range c.Jobs {
		if x.Job == job {
			if off := math.Abs(x.OnTime - want); off > 4*math.Sqrt(want*(1-want)/float64(c.Samples))+0.002 { // seconds are whole, factors thousandths
				t.Errorf("%v: job %s is on time on %.4f of the days, should be %.4f", c.Spread, job, x.OnTime, want)
			}
			return
		}
	}
	t.Errorf("nothing is said of job %s", job)
}

// Goal: two jobs in a row, the second ready without a minute, as the convolution has it.
func TestChanceOfTwoInARow(t *testing.T) {
	for _, hour := range []string{"07:00", "07:20", "07:40"} {
		p := alone(t, shop.Spread{Run: 0.3}, `  - {name: "1", sheet: 600 x 420, stock: offset 90, fold: "up 1/2", sheets: 5000, given: elder, pin: {folder: elder}}
  - {name: "2", sheet: 420 x 297, stock: offset 90, fold: "up 1/2", sheets: 6000, due: 2026-03-27 `+hour+`, given: elder, pin: {folder: elder}}`)
		day, err := p.Evaluate(p.Given())
		if err != nil {
			t.Fatal(err)
		}
		one, two := taskIn(t, day, "1"), taskIn(t, day, "2")
		limit := (two.Due.Sub(day.From) - one.Makeready - two.Makeready).Minutes()
		agree(t, p.Chances(day, 40000, 5), "2", sumBelow(one.Run.Minutes(), two.Run.Minutes(), limit, 0.3, 0.3))
	}
}

// Goal: hours, jobs that wait for others and two folders are honoured on every day. Method: another simulation, with
// another generator: the sheets of every docket are made more or fewer, and the day is planned anew by the decoder. It is
// the same only where nothing else depends on sheets: one pattern of tools, no bench, make-readies without spread.
func TestChanceAgainstAnotherSimulation(t *testing.T) {
	const spread, days = 0.35, 3000
	file := string(read(t, "testdata/workshop.yaml"))
	old := file[strings.Index(file, "jobs:"):strings.Index(file, "done:")]
	file = strings.Replace(file, old, `jobs:
  - {name: "1", sheet: 600 x 420, stock: offset 90, fold: "up 1/2", sheets: 50000, due: 2026-03-27 13:00, given: elder, pin: {folder: elder}}
  - {name: "2", sheet: 420 x 297, stock: offset 90, fold: "up 1/2", sheets: 40000, due: 2026-03-27 17:30, given: elder, pin: {folder: elder}}
  - {name: "3", sheet: 600 x 420, stock: offset 90, fold: "up 1/2", sheets: 60000, after: ["1"], due: 2026-03-28 05:00, given: larch, pin: {folder: larch}}
  - {name: "4", sheet: 420 x 297, stock: offset 90, fold: "up 1/2", sheets: 50000, after: ["2"], due: 2026-03-29 01:00, given: larch, pin: {folder: larch}}

`, 1)
	s, err := exchange.ReadShop("shop.yaml", []byte(file))
	if err != nil {
		t.Fatal(err)
	}
	s.House.Spread = shop.Spread{Run: spread}
	p, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	day, err := p.Evaluate(p.Given())
	if err != nil {
		t.Fatal(err)
	}
	luck := rand.New(rand.NewChaCha8([32]byte{1, 2, 3}))
	sigma := math.Sqrt(math.Log(1 + spread*spread))
	sheets := map[string]int{}
	for _, j := range s.Jobs {
		sheets[j.Name] = j.Sheets
	}
	onTime := map[string]float64{}
	for range days {
		for i := range s.Jobs {
			s.Jobs[i].Sheets = int(math.Round(float64(sheets[s.Jobs[i].Name]) * math.Exp(sigma*luck.NormFloat64())))
		}
		q, err := plan.Prepare(s, s.Now)
		if err != nil {
			t.Fatal(err)
		}
		other, err := q.Evaluate(day.Order())
		if err != nil {
			t.Fatal(err)
		}
		for _, j := range s.Jobs {
			if taskIn(t, other, j.Name).Late == 0 {
				onTime[j.Name] += 1.0 / days
			}
		}
	}
	for i := range s.Jobs {
		s.Jobs[i].Sheets = sheets[s.Jobs[i].Name]
	}
	for _, c := range p.Chances(day, 20000, 1).Jobs {
		off := math.Abs(c.OnTime - onTime[c.Job])
		if most := 4*math.Sqrt(c.OnTime*(1-c.OnTime)/days) + 0.004; off > most {
			t.Errorf("job %s is on time on %.4f of the days, by the other simulation on %.4f", c.Job, c.OnTime, onTime[c.Job])
		}
		if c.OnTime < 0.05 || c.OnTime > 0.95 {
			t.Errorf("job %s is on time on %.3f of the days, ends at %v; the test shows little", c.Job, c.OnTime, c.Middle)
		}
	}
}

// Goal: without spread every day is the plan; the same seed gives the same chances, and what is said adds up.
func TestChancesAddUp(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	s, err := exchange.ReadShop("shop.yaml", file)
	if err != nil {
		t.Fatal(err)
	}
	s.House.Spread = shop.Spread{}
	sure, err := plan.Prepare(s, s.Now)
	if err != nil {
		t.Fatal(err)
	}
	day, err := sure.Evaluate(sure.Given())
	if err != nil {
		t.Fatal(err)
	}
	c := sure.Chances(day, 3, 1)
	late := 0
	for _, x := range c.Jobs {
		task := taskIn(t, day, x.Job)
		if task.Late > 0 {
			late++
		}
		if (x.OnTime == 1) != (task.Late == 0) || x.Error != 0 || !x.Early.Equal(task.RunEnd) || !x.Tail.Equal(task.RunEnd) {
			t.Errorf("without spread %v, in the plan %v late, end %v", x, task.Late, task.RunEnd)
		}
	}
	if c.LateJobs != float64(late) || c.Late != day.Figures.LatePlain || (c.AllOnTime == 1) != (late == 0) {
		t.Errorf("%v late jobs by %v, in the plan %d by %v", c.LateJobs, c.Late, late, day.Figures.LatePlain)
	}
	p, _ := prepared(t, file)
	one, two := p.Chances(day, 500, 9), p.Chances(day, 500, 9)
	if diff := cmp.Diff(one, two); diff != "" {
		t.Error(diff)
	}
	sum := 0.0
	for _, x := range one.Jobs {
		sum += 1 - x.OnTime
		if x.Early.After(x.Middle) || x.Middle.After(x.Tail) {
			t.Errorf("job %s ends %v, %v, %v", x.Job, x.Early, x.Middle, x.Tail)
		}
	}
	if math.Abs(sum-one.LateJobs) > 1e-9 {
		t.Errorf("%v jobs are late on average, the chances give %v", one.LateJobs, sum)
	}
	if p.Chances(day, 0, 1) != nil {
		t.Error("no day at all gives chances")
	}
}

// Goal: a plan for 80 of 100 cases reckons with the minutes of that percentile, explains them, and holds more often.
func TestPlanAtAPercentile(t *testing.T) {
	file := read(t, "testdata/workshop.yaml")
	p, s := prepared(t, file)
	middle, err := p.At(50)
	if err != nil {
		t.Fatal(err)
	}
	high, err := p.At(80)
	if err != nil {
		t.Fatal(err)
	}
	// The 80th percentile of the standard normal distribution is 0.8416 (any table of it).
	ready, run := math.Exp(0.8416*math.Sqrt(math.Log(1+0.25*0.25))), math.Exp(0.8416*math.Sqrt(math.Log(1+0.1*0.1)))
	day, err := high.Search(t.Context(), nil, plan.Options{Seed: 1, Iterations: 500})
	if err != nil {
		t.Fatal(err)
	}
	plain, err := middle.Evaluate(day.Order())
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range day.Folders {
		for _, task := range f.Tasks {
			was := taskIn(t, plain, task.Job)
			if got := task.Run.Seconds() / was.Run.Seconds(); math.Abs(got-run) > 0.002 {
				t.Errorf("the run of %s takes %.4f times as long, should %.4f", task.Job, got, run)
			}
			var sum, reserve time.Duration
			for _, l := range task.Lines {
				sum += l.Time
				if l.What.Key == "reserve" {
					reserve += l.Time
				}
			}
			if sum != task.Makeready {
				t.Errorf("the lines of %s come to %v, its make-ready is %v", task.Job, sum, task.Makeready)
			}
			if got := reserve.Seconds() / (sum - reserve).Seconds(); sum > 0 && math.Abs(got-(ready-1)) > 0.01 {
				t.Errorf("the reserve of %s is %.4f of the rest, should be %.4f", task.Job, got, ready-1)
			}
		}
	}
	c := &checker{shop: s, doc: exchange.Plan(day)}
	c.moves()
	for _, objection := range c.objects {
		t.Error(objection)
	}
	if day.Figures.Cost > day.Given.Figures.Cost || day.Percentile != 80 {
		t.Errorf("for %d of 100 cases the plan costs %v, the order given %v", day.Percentile, day.Figures.Cost, day.Given.Figures.Cost)
	}
	same, err := p.Evaluate(day.Order())
	if err != nil {
		t.Fatal(err)
	}
	plain.Percentile = 0
	if diff := cmp.Diff(string(inJSON(t, same)), string(inJSON(t, plain))); diff != "" {
		t.Error("50 of 100 is not the middle: ", diff)
	}
	high.Replay(day, func(format string, args ...any) {}) // passes without a panic
	if got := p.Chances(day, 200, 1); len(got.Jobs) == 0 {
		t.Error("no chances of a plan at a percentile")
	}
	for _, bad := range []int{0, 49, 100, -1} {
		if _, err := p.At(bad); err == nil || !strings.Contains(err.Error(), "50 to 99 [percentile]") {
			t.Errorf("%d of 100: %v", bad, err)
		}
	}
}
