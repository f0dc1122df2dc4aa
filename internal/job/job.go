// Package job is the docket: sheet, stock, scheme, wanted operations, quantity, times.
//
// Operations are told on the product, never on a machine: which fold line is to be perforated, where the sheet is slit,
// what is trimmed off an edge. Lines are those of the flat sheet as drawn, front up, s along its length. [Job.Check]
// holds a job to everything that can be said without a folder; which folder can run it is the settings room's question.
package job

import (
	"time"

	"foldwright/internal/fold"
	"foldwright/internal/paper"
)

// Job is one folding job.
type Job struct {
	Name       string // docket number or short name; unique in the shop
	Title      string
	Customer   string
	Sheet      fold.Sheet // as drawn: front up, s along Length
	Stock      paper.Stock
	Scheme     fold.Scheme
	Operations []Operation
	Sheets     int // to fold, without the sheets for setting up
	RateMax    int // sheets an hour the job allows; 0 = no limit of its own
	Release    time.Time
	Due        time.Time
	Weight     int      // what a minute of lateness weighs; 1 when the docket says nothing
	After      []string // jobs that must be finished before this one starts
	Given      string   // the folder it stands on in the order given; empty = whichever is free first
	Choices    []Choice // of its tools there, for the sake of later jobs
	Pin        Pin
}

// Pin holds a job where a person put it.
type Pin struct {
	Folder   string // must run here
	Position int    // 1 = first on the folder; 0 = anywhere
	Started  bool   // already made ready and running: first on its folder, no make-ready
}
