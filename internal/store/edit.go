package store

import (
	"fmt"
	"slices"

	"foldwright/internal/fault"
)

// Edit is one step of a change; [Add], [Put], [Move] and [Remove] make one.
type Edit struct {
	deed  deed
	tag   Tag
	value any
	ahead Tag
}

// deed is what was done to a thing. The words stand in the database.
type deed string

const (
	added   deed = "added"
	changed deed = "changed"
	moved   deed = "moved"
	removed deed = "removed"
)

// Add puts a new thing at the end of its kind.
func Add(k Kind, value any) Edit { return Edit{deed: added, tag: Tag{Kind: k}, value: value} }

// Put gives a thing a new value, which may have another name.
func Put(t Tag, value any) Edit { return Edit{deed: changed, tag: t, value: value} }

// Move puts a thing just ahead of another of its kind; the zero Tag means to the end. The version of the other does not matter.
func Move(t, ahead Tag) Edit { return Edit{deed: moved, tag: t, ahead: ahead} }

// Remove takes a thing away. The audit trail keeps what it was.
func Remove(t Tag) Edit { return Edit{deed: removed, tag: t} }

// stale says that an edit was made on a thing that is not as it was then.
type stale struct{ tag Tag }

func (s stale) Error() string {
	return fmt.Sprintf("%s is not as it was", called(s.tag.Kind, s.tag.Name))
}

// with applies edits one after the other and leaves r as it was. An edit may use the tag that an earlier one of the same
// change used: both were made by the same hand.
func (r rows) with(edits []Edit) (rows, error) {
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

func (r rows) apply(e Edit, touched map[string]bool) error {
	k, known := keepingOf(e.tag.Kind)
	if !known {
		return fmt.Errorf("there is no kind %q", e.tag.Kind)
	}
	if e.deed == added {
		return r.add(k, e.value)
	}
	list := r[k.kind]
	i := indexOf(list, e.tag.ID)
	if i < 0 || list[i].version != e.tag.Version && !touched[e.tag.ID] {
		return stale{e.tag}
	}
	touched[e.tag.ID] = true
	switch e.deed {
	case changed:
		return r.put(k, i, e.value)
	case moved:
		return r.move(k, i, e.ahead)
	default:
		r[k.kind] = slices.Delete(list, i, i+1)
		return nil
	}
}

func indexOf(list []row, id string) int {
	return slices.IndexFunc(list, func(r row) bool { return r.id == id && id != "" })
}

func (r rows) add(k keeping, value any) error {
	one, err := k.encode(value)
	if err != nil {
		return err
	}
	if k.alone && len(r[k.kind]) > 0 {
		return taken(k.kind, one.name)
	}
	if err := r.free(k.kind, one.name); err != nil {
		return err
	}
	r[k.kind] = append(r[k.kind], one)
	return nil
}

// free says when a name is taken. Two people who add one thing at once meet here.
func (r rows) free(k Kind, name string) error {
	if slices.ContainsFunc(r[k], func(o row) bool { return o.name == name }) {
		return taken(k, name)
	}
	return nil
}

func taken(k Kind, name string) error {
	return fault.Fault{Kind: fault.Conflict, Code: CodeTwice, Field: string(k), Wrong: fmt.Sprintf("there is %s already", called(k, name)), Right: "take another name, or change the one that is there"}
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

func (r rows) move(k keeping, i int, ahead Tag) error {
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
