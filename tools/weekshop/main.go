// Command weekshop writes a shop file as large as a week: 400 jobs from Monday to Friday on six folders, made by chance from the
// jobs, folders and sets of the demo shop. The figures of the planner for a week come from such files.
//
//	weekshop [--seed 1] [--jobs 400] >week.yaml
package main

import (
	"flag"
	"fmt"
	"os"
	"time"

	"foldwright/internal/demo"
	"foldwright/internal/exchange"
)

func main() {
	seed := flag.Uint64("seed", 1, "the same seed gives the same week")
	jobs := flag.Int("jobs", 400, "how many jobs")
	flag.Parse()
	s, err := demo.Shop()
	if err == nil {
		grow(s, *jobs, *seed)
		_, err = os.Stdout.Write(exchange.WriteShop(s))
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "weekshop:", err)
		os.Exit(1)
	}
}

// days is what a week of folding has.
const days = 5

// at is an instant of the week: minutes after the beginning of one of its days, 0 being Monday.
func at(monday time.Time, day, minute int) time.Time {
	return monday.AddDate(0, 0, day).Add(time.Duration(minute) * time.Minute)
}
