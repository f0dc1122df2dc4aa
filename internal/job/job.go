// Package job is the docket: sheet, stock, scheme, wanted operations, quantity, times.
package job

import (
	"time"

	"foldwright/internal/fold"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
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
	Pin        Pin
}

// Pin holds a job where a person put it.
type Pin struct {
	Folder   string // must run here
	Position int    // 1 = first on the folder; 0 = anywhere
	Started  bool   // already made ready and running: first on its folder, no make-ready
}

// Target says what an operation works on.
type Target uint8

const (
	OnFold Target = iota + 1 // the line of fold Fold
	OnLine                   // the line Axis = At of the flat sheet as drawn
	OnEdge                   // At inside the edge Edge of the finished piece: a trim
)

// Edge is an edge of the finished piece, in the terms of the pages.
type Edge string

const (
	Head  Edge = "head"
	Foot  Edge = "foot"
	Front Edge = "front" // the fore edge, opposite the spine
)

// Operation is one thing wanted besides folding, told in terms of the product.
type Operation struct {
	Kind   tooling.Kind
	Spec   string // of the wheel; empty = the shop's usual one
	Target Target
	Fold   int // OnFold: from 1
	Axis   fold.Axis
	At     units.Length // OnLine, OnEdge
	Edge   Edge         // OnEdge
	Ups    int          // OnLine slit or strip: parts the sheet is cut into by this line; 0 or 2 = two-up
}
