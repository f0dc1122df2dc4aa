package desk

import (
	"context"
	"fmt"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
)

// Thing is a thing of the shop with the version that was seen.
type Thing struct {
	ledger.Tag
	Value any // of the type that its kind names
}

// editing is what one must be allowed to change things of a kind. What floor work changes all day, operators may.
var editing = map[ledger.Kind]access.Deed{
	ledger.OfShop:      access.Rule,
	ledger.OfCalendar:  access.Rule,
	ledger.OfClass:     access.Rule,
	ledger.OfFolder:    access.Rule,
	ledger.OfPerson:    access.Rule,
	ledger.OfStandards: access.Rule,
	ledger.OfWeights:   access.Rule,
	ledger.OfHouse:     access.Rule,
	ledger.OfTool:      access.Arrange,
	ledger.OfSet:       access.Arrange,
	ledger.OfStock:     access.Arrange,
	ledger.OfJob:       access.Arrange,
	ledger.OfDone:      access.Arrange,
	ledger.OfPresent:   access.Record,
}

// Editing is what one must be allowed to change things of a kind.
func Editing(k ledger.Kind) access.Deed { return editing[k] }

// Things lists the things of a kind in the order of the shop.
func (d *Desk) Things(ctx context.Context, k ledger.Kind) ([]Thing, error) {
	now, err := d.Snapshot(ctx)
	if err != nil {
		return nil, err
	}
	tags, values := now.Tags(k), ledger.Values(now.Shop, k)
	list := make([]Thing, len(tags))
	for i, t := range tags {
		list[i] = Thing{t, values[i]}
	}
	return list, nil
}

// Thing returns one by its name, which is empty for what a shop has one of.
func (d *Desk) Thing(ctx context.Context, k ledger.Kind, name string) (Thing, error) {
	list, err := d.Things(ctx, k)
	if err != nil {
		return Thing{}, err
	}
	var known []string
	for _, t := range list {
		if t.Name == name {
			return t, nil
		}
		known = append(known, t.Name)
	}
	return Thing{}, unknown(string(k), name, known)
}

// Add puts a new thing into the shop.
func (d *Desk) Add(ctx context.Context, k ledger.Kind, value any) (Thing, error) {
	if err := access.From(ctx).May(editing[k]); err != nil {
		return Thing{}, err
	}
	name, err := ledger.NameOf(k, value)
	if err != nil {
		return Thing{}, err
	}
	now, err := d.change(ctx, editing[k], fmt.Sprintf("new %s %s", k, name), ledger.Add(k, value))
	return thingIn(now, k, name), err
}

// Put gives a thing a new value; a version that is no longer the thing's is a conflict.
func (d *Desk) Put(ctx context.Context, t ledger.Tag, value any) (Thing, error) {
	if err := access.From(ctx).May(editing[t.Kind]); err != nil {
		return Thing{}, err
	}
	name, err := ledger.NameOf(t.Kind, value)
	if err != nil {
		return Thing{}, err
	}
	now, err := d.change(ctx, editing[t.Kind], "", ledger.Put(t, value))
	return thingIn(now, t.Kind, name), err
}

// Remove takes a thing out of the shop.
func (d *Desk) Remove(ctx context.Context, t ledger.Tag) error {
	_, err := d.change(ctx, editing[t.Kind], "", ledger.Remove(t))
	return err
}

// Move puts a thing just ahead of another of its kind; the zero tag means to the end.
func (d *Desk) Move(ctx context.Context, t, ahead ledger.Tag) (Thing, error) {
	now, err := d.change(ctx, editing[t.Kind], "", ledger.Move(t, ahead))
	return thingIn(now, t.Kind, t.Name), err
}

// change applies edits under the asker's name.
func (d *Desk) change(ctx context.Context, need access.Deed, what string, edits ...ledger.Edit) (*ledger.Snapshot, error) {
	return d.update(ctx, need, what, func(*ledger.Snapshot) ([]ledger.Edit, error) { return edits, nil })
}

// update applies what decide makes of the shop at that moment, under the asker's name.
func (d *Desk) update(ctx context.Context, need access.Deed, what string, decide func(*ledger.Snapshot) ([]ledger.Edit, error)) (*ledger.Snapshot, error) {
	who := access.From(ctx)
	if err := who.May(need); err != nil {
		return nil, err
	}
	return d.Books.Update(ctx, ledger.By{Who: who.String(), What: what}, decide)
}

// thingIn finds a thing after a change; none when there was no change.
func thingIn(now *ledger.Snapshot, k ledger.Kind, name string) Thing {
	if now == nil {
		return Thing{}
	}
	for i, t := range now.Tags(k) {
		if t.Name == name {
			return Thing{t, ledger.Values(now.Shop, k)[i]}
		}
	}
	return Thing{}
}
