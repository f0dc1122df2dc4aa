package exchange

import (
	"time"

	"foldwright/internal/ledger"
)

// ChangeDocument is an entry of the audit trail.
type ChangeDocument struct {
	Revision int64          `json:"revision"`
	At       time.Time      `json:"at"`
	Who      string         `json:"who"`
	What     string         `json:"what,omitempty"` // in the words of who changed it
	Things   []ChangedThing `json:"things"`
}

// ChangedThing is a thing of a change, under the name that it has after it; removed, under the one that it had.
type ChangedThing struct {
	Kind   ledger.Kind    `json:"kind"`
	ID     string         `json:"id"`
	Name   string         `json:"name,omitempty"`
	Deed   ledger.Deed    `json:"deed"`
	Fields []ChangedField `json:"fields"`
}

// ChangedField is a field that is not as it was; one that was not there has no before, one that went has no after.
type ChangedField struct {
	Field  string `json:"field"`
	Before string `json:"before,omitempty"`
	After  string `json:"after,omitempty"`
}

// Changes gives the audit trail its shape, with times at the clock of a zone.
func Changes(list []ledger.Change, zone *time.Location) []ChangeDocument {
	return each(list, func(c ledger.Change) ChangeDocument {
		return ChangeDocument{Revision: c.Revision, At: c.At.In(zone), Who: c.Who, What: c.What, Things: each(c.Things, changedThing)}
	})
}

func changedThing(c ledger.Changed) ChangedThing {
	return ChangedThing{Kind: c.Kind, ID: c.ID, Name: c.Name, Deed: c.Deed, Fields: each(c.Fields, func(f ledger.Field) ChangedField {
		return ChangedField{Field: f.Name, Before: f.Before, After: f.After}
	})}
}
