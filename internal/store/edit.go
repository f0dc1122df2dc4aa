package store

import (
	"fmt"
	"slices"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// stale says that an edit was made on a thing that is not as it was then.
type stale struct{ tag ledger.Tag }

func (s stale) Error() string {
	return fmt.Sprintf("%s is not as it was", called(s.tag.Kind, s.tag.Name))
}

// with applies edits one after the other and leaves r as it was. An edit may use the tag that an earlier one of the same
// change used: both were made by the same hand.
func (r rows) with(edits []ledger.Edit) (rows, error) {
	next := rows{}
	for _, k := range keepings {
		next[k.kind] = slices.Clone(r[k.kind])
	}
	touched := map[string]bool{}
	for _, e := range edits {
		if err := next.apply(e, touched); err != nil {
			return nil, err
		}
	}
	return next, nil
}

func (r rows) apply(e ledger.Edit, touched map[string]bool) error {
	k, known := keepingOf(e.Tag.Kind)
	if !known {
		return fmt.Errorf("there is no kind %q", e.Tag.Kind)
	}
	if e.Deed == ledger.Added {
		return r.add(k, e)
	}
	list := r[k.kind]
	i := indexOf(list, e.Tag.ID)
	if i < 0 || list[i].version != e.Tag.Version && !touched[e.Tag.ID] {
		return stale{e.Tag}
	}
	touched[e.Tag.ID] = true
	switch e.Deed {
	case ledger.Altered:
		return r.put(k, i, e.Value)
	case ledger.Moved:
		return r.move(k, i, e.Ahead)
	case ledger.Removed:
		if k.alone {
			return fault.Fault{Kind: fault.No, Code: ledger.CodeAlone, Field: string(k.kind), Wrong: "a shop always has one", Right: "change it"}
		}
		r[k.kind] = slices.Delete(list, i, i+1)
	}
	return nil
}

func indexOf(list []row, id string) int {
	return slices.IndexFunc(list, func(r row) bool { return r.id == id && id != "" })
}

func (r rows) add(k keeping, e ledger.Edit) error {
	one, err := k.encode(e.Value)
	if err != nil {
		return err
	}
	list := r[k.kind]
	if k.alone && len(list) > 0 {
		return taken(k.kind, one.name)
	}
	if err := r.free(k.kind, one.name); err != nil {
		return err
	}
	if one.id = e.Tag.ID; indexOf(list, one.id) >= 0 {
		return stale{e.Tag}
	}
	at := len(list)
	if e.Ahead.ID != "" {
		if at = indexOf(list, e.Ahead.ID); at < 0 {
			return stale{e.Ahead}
		}
	}
	r[k.kind] = slices.Insert(list, at, one)
	return nil
}

// free says when a name is taken. Two people who add one thing at once meet here.
func (r rows) free(k ledger.Kind, name string) error {
	if slices.ContainsFunc(r[k], func(o row) bool { return o.name == name }) {
		return taken(k, name)
	}
	return nil
}

func taken(k ledger.Kind, name string) error {
	return fault.Fault{Kind: fault.Conflict, Code: ledger.CodeTwice, Field: string(k), Wrong: fmt.Sprintf("there is %s already", called(k, name)), Right: "take another name, or change the one that is there"}
}

func (r rows) put(k keeping, i int, value any) error {
	one, err := k.encode(value)
	if err != nil {
		return err
	}
	old := &r[k.kind][i]
	if one.name != old.name {
		if err := r.free(k.kind, one.name); err != nil {
			return err
		}
	}
	if one.body != old.body || one.format != old.format {
		one.id, one.position = old.id, old.position
		*old = one
	}
	return nil
}

func (r rows) move(k keeping, i int, ahead ledger.Tag) error {
	list := r[k.kind]
	one := list[i]
	one.position, one.version = 0, 0
	rest := slices.Delete(slices.Clone(list), i, i+1)
	at := len(rest)
	if ahead.ID != "" {
		if at = indexOf(rest, ahead.ID); at < 0 {
			return stale{ahead}
		}
	}
	if at != i { // else it stands there already
		r[k.kind] = slices.Insert(rest, at, one)
	}
	return nil
}
