package store

import (
	"time"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

type jobRecord struct {
	Name       string            `json:"name"`
	Title      string            `json:"title"`
	Customer   string            `json:"customer"`
	Sheet      sheetRecord       `json:"sheet"`
	Stock      stockRecord       `json:"stock"`
	Scheme     schemeRecord      `json:"scheme"`
	Operations []operationRecord `json:"operations,omitempty"`
	Sheets     int               `json:"sheets"`
	RateMax    int               `json:"rate_max_h"`
	Release    time.Time         `json:"release_utc,omitzero"`
	Due        time.Time         `json:"due_utc,omitzero"`
	Weight     int               `json:"weight"`
	After      []string          `json:"after,omitempty"`
	Given      string            `json:"given"`
	Choices    []choiceRecord    `json:"choices,omitempty"`
	Pin        pinRecord         `json:"pin"`
}

type sheetRecord struct {
	Length units.Length `json:"length_nm"`
	Width  units.Length `json:"width_nm"`
}

type pinRecord struct {
	Folder   string `json:"folder,omitempty"`
	Position int    `json:"position,omitempty"`
	Started  bool   `json:"started,omitempty"`
}

type choiceRecord struct {
	Station string       `json:"station,omitempty"`
	Way     job.Way      `json:"way,omitempty"`
	Set     string       `json:"set,omitempty"`
	Unit    int          `json:"unit,omitempty"`
	Guide   units.Length `json:"guide_nm,omitempty"`
}

func choiceOf(c job.Choice) choiceRecord { return choiceRecord(c) }
func (r choiceRecord) value() job.Choice { return job.Choice(r) }

func jobOf(j job.Job) jobRecord {
	return jobRecord{
		j.Name, j.Title, j.Customer, sheetRecord(j.Sheet), stockOf(j.Stock), schemeOf(j.Scheme), each(j.Operations, operationOf),
		j.Sheets, j.RateMax, j.Release.UTC(), j.Due.UTC(), j.Weight, j.After, j.Given, each(j.Choices, choiceOf), pinRecord(j.Pin),
	}
}

func (r jobRecord) value() job.Job {
	return job.Job{
		Name: r.Name, Title: r.Title, Customer: r.Customer, Sheet: fold.Sheet(r.Sheet), Stock: r.Stock.value(), Scheme: r.Scheme.value(),
		Operations: each(r.Operations, operationRecord.value), Sheets: r.Sheets, RateMax: r.RateMax,
		Release: r.Release, Due: r.Due, Weight: r.Weight, After: r.After, Given: r.Given, Choices: each(r.Choices, choiceRecord.value), Pin: job.Pin(r.Pin),
	}
}

type schemeRecord struct {
	Name  string       `json:"name"`
	Steps []stepRecord `json:"steps,omitempty"`
	First faceWord     `json:"first"`
	Lap   units.Length `json:"lap_nm"`
	Trims trimsRecord  `json:"trims"`
}

type stepRecord struct {
	Op    opWord    `json:"op"`
	Share ratioText `json:"share,omitzero"`
	Plus  ratioText `json:"plus_of_nm,omitzero"`
}

type trimsRecord struct {
	Head  units.Length `json:"head_nm"`
	Foot  units.Length `json:"foot_nm"`
	Front units.Length `json:"front_nm"`
}

func schemeOf(s fold.Scheme) schemeRecord {
	return schemeRecord{s.Name, each(s.Steps, stepOf), faceWord(s.First), s.Lap, trimsRecord(s.Trims)}
}

func (r schemeRecord) value() fold.Scheme {
	return fold.Scheme{Name: r.Name, Steps: each(r.Steps, stepRecord.value), First: fold.Face(r.First), Lap: r.Lap, Trims: fold.Trims(r.Trims)}
}

func stepOf(s fold.Step) stepRecord {
	return stepRecord{opWord(s.Op), ratioText(s.Depth.Share), ratioText(s.Depth.Plus)}
}

func (r stepRecord) value() fold.Step {
	return fold.Step{Op: fold.Op(r.Op), Depth: fold.Depth{Share: fold.Ratio(r.Share), Plus: fold.Ratio(r.Plus)}}
}

type operationRecord struct {
	Kind   tooling.Kind `json:"kind"`
	Spec   string       `json:"spec,omitempty"`
	Target targetWord   `json:"target"`
	Fold   int          `json:"fold,omitempty"`
	Axis   axisWord     `json:"axis,omitzero"`
	At     units.Length `json:"at_nm,omitempty"`
	Edge   job.Edge     `json:"edge,omitempty"`
	Ups    int          `json:"ups,omitempty"`
}

func operationOf(o job.Operation) operationRecord {
	return operationRecord{o.Kind, o.Spec, targetWord(o.Target), o.Fold, axisWord(o.Axis), o.At, o.Edge, o.Ups}
}

func (r operationRecord) value() job.Operation {
	return job.Operation{
		Kind: r.Kind, Spec: r.Spec, Target: job.Target(r.Target), Fold: r.Fold, Axis: fold.Axis(r.Axis), At: r.At, Edge: r.Edge, Ups: r.Ups,
	}
}
