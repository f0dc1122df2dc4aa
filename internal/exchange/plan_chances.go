package exchange

import (
	"math"
	"time"

	"foldwright/internal/plan"
)

// PlanChances tells how likely the plan holds when minutes scatter, by simulation.
type PlanChances struct {
	Samples   int          `json:"samples"` // days
	Seed      uint64       `json:"seed"`
	Spread    PlanSpread   `json:"spread"`
	LateCount float64      `json:"late_count"` // jobs a day on average
	LateMin   float64      `json:"late_min"`   // a day on average, plain
	AllOnTime float64      `json:"all_on_time"`
	Jobs      []PlanChance `json:"jobs"`
}

// PlanSpread is the standard deviation as a share of the mean.
type PlanSpread struct {
	Makeready float64 `json:"makeready"`
	Run       float64 `json:"run"`
	Bench     float64 `json:"bench"`
}

// PlanChance is the share of days on which a job is on time, its standard error, and when it ends by on 10, 50 and 90 days of
// 100. A time is left out when it lies beyond the hours that the plan looks ahead to.
type PlanChance struct {
	Job    string     `json:"job"`
	Folder string     `json:"folder"`
	Due    *time.Time `json:"due,omitempty"`
	OnTime float64    `json:"on_time"`
	Error  float64    `json:"error"`
	Early  *time.Time `json:"ends_by_10,omitempty"`
	Middle *time.Time `json:"ends_by_50,omitempty"`
	Tail   *time.Time `json:"ends_by_90,omitempty"`
}

// Chances gives chances their JSON shape.
func Chances(c *plan.Chances) *PlanChances {
	if c == nil {
		return nil
	}
	return &PlanChances{
		Samples: c.Samples, Seed: c.Seed, Spread: PlanSpread(c.Spread),
		LateCount: fourDecimals(c.LateJobs), LateMin: inMinutes(c.Late), AllOnTime: fourDecimals(c.AllOnTime),
		Jobs: each(c.Jobs, planChance),
	}
}

func planChance(c plan.Chance) PlanChance {
	return PlanChance{
		Job: c.Job, Folder: c.Folder, Due: known(c.Due), OnTime: fourDecimals(c.OnTime), Error: fourDecimals(c.Error),
		Early: known(c.Early), Middle: known(c.Middle), Tail: known(c.Tail),
	}
}

// known is a time, or nothing when it is not known.
func known(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

func fourDecimals(x float64) float64 { return math.Round(x*1e4) / 1e4 }
