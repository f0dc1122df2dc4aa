package exchange

import (
	"foldwright/internal/tooling"
)

// RackAnswer is the shape of rack --json: the sets, in the order of the shop.
type RackAnswer struct {
	Sets []rackSet `json:"sets"`
}

// rackSet is a set: what stands on it, where it is, what it has done.
type rackSet struct {
	Set    string     `json:"set"`
	Class  string     `json:"class"`
	Place  rackPlace  `json:"place"`
	Tools  []rackTool `json:"tools"`
	Served []string   `json:"served,omitempty"`
	RunKM  float64    `json:"run_km"`
}

// rackPlace is where a set is: exactly one of slot, station with its folder, and bench.
type rackPlace struct {
	Slot    string `json:"slot,omitempty"`
	Folder  string `json:"folder,omitempty"`
	Station string `json:"station,omitempty"`
	Bench   bool   `json:"bench,omitempty"`
}

// rackTool is a tool on a set, measured from the operator-side datum shoulder.
type rackTool struct {
	Kind string  `json:"kind"`
	Spec string  `json:"spec,omitempty"`
	AtMM float64 `json:"at_mm"`
}

// Rack gives the sets their shape for the outside.
func Rack(sets []tooling.Set) RackAnswer {
	out := RackAnswer{Sets: make([]rackSet, len(sets))}
	for i, s := range sets {
		out.Sets[i] = rackSet{
			Set:    s.Label,
			Class:  s.Class,
			Place:  rackPlace{Slot: s.Place.Slot, Folder: s.Place.Folder, Station: s.Place.Station, Bench: s.Place.Bench},
			Tools:  rackTools(s.Tools),
			Served: s.Served,
			RunKM:  s.MetresK,
		}
	}
	return out
}

func rackTools(list []tooling.Tool) []rackTool {
	out := make([]rackTool, len(list))
	for i, t := range list {
		out[i] = rackTool{Kind: string(t.Kind), Spec: t.Spec, AtMM: t.At.MM()}
	}
	return out
}
