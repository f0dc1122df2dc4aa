package main

import "foldwright/internal/schedule"

// format is one of the published formats: how a file becomes a problem, and which part of the cost is its value.
type format struct {
	read  func(data []byte) (*schedule.Problem, error)
	value func(schedule.Cost) int64
}

var formats = map[string]format{
	"atsp":  {readTour, setup},
	"sop":   {readPath, setup},
	"wtsds": {readTardiness, func(c schedule.Cost) int64 { return c.Late }},
	"sdst":  {readParallel, func(c schedule.Cost) int64 { return c.Makespan }},
	"ssp":   {readRack, setup},
}

func setup(c schedule.Cost) int64 { return c.Setup }

// open is a machine that works without end.
func open() schedule.Machine {
	return schedule.Machine{Windows: []schedule.Window{{To: schedule.Forever}}}
}

// table is zeros for every job after every job and the present state.
func table(jobs int) [][]schedule.Time {
	rows := make([][]schedule.Time, jobs+1)
	for i := range rows {
		rows[i] = make([]schedule.Time, jobs)
	}
	return rows
}
