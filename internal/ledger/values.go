package ledger

import (
	"fmt"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// The codes of things that do not go with their kind.
const (
	CodeKind  fault.Code = "thing-kind"  // a value that is not of the type its kind names
	CodeAlone fault.Code = "thing-alone" // the only one of its kind shall go
)

// Kinds lists every kind, in an order in which none leans on a later one.
func Kinds() []Kind {
	return []Kind{OfShop, OfCalendar, OfClass, OfTool, OfSet, OfFolder, OfPresent, OfPerson, OfStock, OfJob, OfDone, OfStandards, OfWeights, OfHouse}
}

// Alone says whether a shop has exactly one of a kind, which then has no name.
func (k Kind) Alone() bool { return k == OfShop || k == OfStandards || k == OfWeights || k == OfHouse }

// Values lists the things of a kind as the shop holds them.
func Values(s *shop.Shop, k Kind) []any {
	switch k {
	case OfShop:
		return []any{Head{Name: s.Name, Zone: s.Zone, Now: s.Now, Inch: s.Inch}}
	case OfCalendar:
		return anys(s.Calendars)
	case OfClass:
		return anys(s.Classes)
	case OfTool:
		return anys(s.Tools)
	case OfSet:
		return anys(s.Sets)
	case OfFolder:
		return anys(s.Folders)
	case OfPresent:
		return anys(s.States)
	case OfPerson:
		return anys(s.Bench)
	case OfStock:
		return anys(s.Stocks)
	case OfJob:
		return anys(s.Jobs)
	case OfDone:
		return anys(s.Done)
	case OfStandards:
		return []any{s.Standards}
	case OfWeights:
		return []any{s.Weights}
	case OfHouse:
		return []any{s.House}
	}
	return nil
}

func anys[T any](list []T) []any {
	all := make([]any, len(list))
	for i, v := range list {
		all[i] = v
	}
	return all
}

// NameOf is the name under which a value is kept as a thing of a kind; empty for what a shop has one of. A value of another type is
// a fault.
func NameOf(k Kind, value any) (string, error) {
	var name string
	var of Kind
	switch v := value.(type) {
	case Head, changeover.Standards, shop.Weights, shop.House:
		of = alone(v)
	case calendar.Calendar:
		name, of = v.Name, OfCalendar
	case tooling.Class:
		name, of = v.Name, OfClass
	case shop.ToolStock:
		name, of = ToolName(v), OfTool
	case tooling.Set:
		name, of = v.Label, OfSet
	case machine.Folder:
		name, of = v.Name, OfFolder
	case shop.State:
		name, of = v.Folder, OfPresent
	case shop.Person:
		name, of = v.Name, OfPerson
	case paper.Stock:
		name, of = v.Name, OfStock
	case job.Job:
		if name, of = v.Name, OfJob; k == OfDone {
			of = OfDone
		}
	}
	if of == "" || of != k {
		return "", fault.Fault{Kind: fault.Input, Code: CodeKind, Field: string(k), Wrong: fmt.Sprintf("a %T is no %s", value, k), Right: "a value of the type that the kind names"}
	}
	return name, nil
}

func alone(value any) Kind {
	switch value.(type) {
	case Head:
		return OfShop
	case changeover.Standards:
		return OfStandards
	case shop.Weights:
		return OfWeights
	}
	return OfHouse
}
