package store

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"foldwright/internal/calendar"
	"foldwright/internal/changeover"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
)

// keeping is how things of a kind are kept.
type keeping struct {
	kind  ledger.Kind
	alone bool // there is exactly one
	add   func(*shop.Shop, any)
	write func(value any) any
	read  func(body []byte) (any, error)
}

// keepings holds every kind, in the order in which they are written.
var keepings = []keeping{
	one(ledger.OfShop, func(s *shop.Shop, h ledger.Head) { s.Name, s.Zone, s.Now, s.Inch = h.Name, h.Zone, h.Now, h.Inch }, headOf, headRecord.value),
	list(ledger.OfCalendar, func(s *shop.Shop) *[]calendar.Calendar { return &s.Calendars }, calendarOf, calendarRecord.value),
	list(ledger.OfClass, func(s *shop.Shop) *[]tooling.Class { return &s.Classes }, classOf, classRecord.value),
	list(ledger.OfTool, func(s *shop.Shop) *[]shop.ToolStock { return &s.Tools }, toolStockOf, toolStockRecord.value),
	list(ledger.OfSet, func(s *shop.Shop) *[]tooling.Set { return &s.Sets }, setOf, setRecord.value),
	list(ledger.OfFolder, func(s *shop.Shop) *[]machine.Folder { return &s.Folders }, folderOf, folderRecord.value),
	list(ledger.OfPresent, func(s *shop.Shop) *[]shop.State { return &s.States }, stateOf, stateRecord.value),
	list(ledger.OfPerson, func(s *shop.Shop) *[]shop.Person { return &s.Bench }, personOf, personRecord.value),
	list(ledger.OfStock, func(s *shop.Shop) *[]paper.Stock { return &s.Stocks }, stockOf, stockRecord.value),
	list(ledger.OfJob, func(s *shop.Shop) *[]job.Job { return &s.Jobs }, jobOf, jobRecord.value),
	list(ledger.OfDone, func(s *shop.Shop) *[]job.Job { return &s.Done }, jobOf, jobRecord.value),
	one(ledger.OfStandards, func(s *shop.Shop, v changeover.Standards) { s.Standards = v }, standardsOf, standardsRecord.value),
	one(ledger.OfWeights, func(s *shop.Shop, v shop.Weights) { s.Weights = v }, weightsOf, weightsRecord.value),
	one(ledger.OfHouse, func(s *shop.Shop, v shop.House) { s.House = v }, houseOf, houseRecord.value),
}

func keepingOf(k ledger.Kind) (keeping, bool) {
	for _, kp := range keepings {
		if kp.kind == k {
			return kp, true
		}
	}
	return keeping{}, false
}

// list is the keeping of a list of the shop. R is the record that stands for T in the database.
func list[T, R any](k ledger.Kind, at func(*shop.Shop) *[]T, record func(T) R, value func(R) T) keeping {
	return keeping{
		kind:  k,
		add:   func(s *shop.Shop, v any) { *at(s) = append(*at(s), v.(T)) },
		write: func(v any) any { return record(v.(T)) },
		read:  func(body []byte) (any, error) { return decode(body, value) },
	}
}

// one is the keeping of a part of which a shop has one.
func one[T, R any](k ledger.Kind, set func(*shop.Shop, T), record func(T) R, value func(R) T) keeping {
	return keeping{
		kind:  k,
		alone: true,
		add:   func(s *shop.Shop, v any) { set(s, v.(T)) },
		write: func(v any) any { return record(v.(T)) },
		read:  func(body []byte) (any, error) { return decode(body, value) },
	}
}

// decode reads a body of a kind.
func decode[T, R any](body []byte, value func(R) T) (any, error) {
	var record R
	if err := strictly(body, &record); err != nil {
		return nil, err
	}
	return value(record), nil
}

// encode makes a row of a value. What would read back as something else is refused: written, read and written again it
// must be the same text. (Bytes that are no UTF-8, for one, do not come back.)
func (k keeping) encode(value any) (row, error) {
	name, err := ledger.NameOf(k.kind, value)
	if err != nil {
		return row{}, err
	}
	r := row{kind: k.kind, name: name, format: bodyFormat}
	body, err := json.Marshal(k.write(value))
	if err == nil {
		r.value, err = k.read(body)
	}
	if err != nil {
		return row{}, notKeepable(k.kind, name, err.Error())
	}
	again, err := json.Marshal(k.write(r.value))
	if err != nil || !bytes.Equal(body, again) || strings.ContainsRune(name, 0) {
		return row{}, notKeepable(k.kind, name, "it holds signs that are no letters")
	}
	r.body = string(body)
	return r, nil
}

func notKeepable(k ledger.Kind, name, why string) error {
	return fault.Fault{Kind: fault.Input, Code: CodeKeep, Field: called(k, name), Wrong: "it cannot be kept: " + why, Right: "plain text, known words and finite numbers"}
}

// called names a thing in a message.
func called(k ledger.Kind, name string) string {
	if name == "" {
		return string(k)
	}
	return fmt.Sprintf("%s %q", k, name)
}
