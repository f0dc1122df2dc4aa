package store

import (
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

type classRecord struct {
	Name     string       `json:"name"`
	Diameter units.Length `json:"diameter_nm"`
	Length   units.Length `json:"length_nm"`
}

func classOf(c tooling.Class) classRecord  { return classRecord(c) }
func (r classRecord) value() tooling.Class { return tooling.Class(r) }

type typeRecord struct {
	Kind tooling.Kind `json:"kind"`
	Spec string       `json:"spec"`
}

type toolStockRecord struct {
	typeRecord
	Class string     `json:"class"`
	Body  bodyRecord `json:"body"`
	Loose int        `json:"loose"`
}

type bodyRecord struct {
	Left  units.Length `json:"left_nm"`
	Right units.Length `json:"right_nm"`
}

func toolStockOf(t shop.ToolStock) toolStockRecord {
	return toolStockRecord{typeRecord(t.Type), t.Class, bodyRecord(t.Body), t.Loose}
}

func (r toolStockRecord) value() shop.ToolStock {
	return shop.ToolStock{Type: tooling.Type(r.typeRecord), Class: r.Class, Body: tooling.Body(r.Body), Loose: r.Loose}
}

type toolRecord struct {
	typeRecord
	At units.Length `json:"at_nm"`
}

func toolOf(t tooling.Tool) toolRecord { return toolRecord{typeRecord(t.Type), t.At} }
func (r toolRecord) value() tooling.Tool {
	return tooling.Tool{Type: tooling.Type(r.typeRecord), At: r.At}
}

type placeRecord struct {
	Slot    string `json:"slot,omitempty"`
	Folder  string `json:"folder,omitempty"`
	Station string `json:"station,omitempty"`
	Bench   bool   `json:"bench,omitempty"`
}

type setRecord struct {
	Label   string       `json:"label"`
	Class   string       `json:"class"`
	Tools   []toolRecord `json:"tools,omitempty"`
	Place   placeRecord  `json:"place"`
	Served  []string     `json:"served,omitempty"`
	MetresK float64      `json:"run_km"`
}

func setOf(s tooling.Set) setRecord {
	return setRecord{s.Label, s.Class, each(s.Tools, toolOf), placeRecord(s.Place), s.Served, s.MetresK}
}

func (r setRecord) value() tooling.Set {
	return tooling.Set{Label: r.Label, Class: r.Class, Tools: each(r.Tools, toolRecord.value), Place: tooling.Place(r.Place), Served: r.Served, MetresK: r.MetresK}
}
