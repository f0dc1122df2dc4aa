package ledger

// Edit is one step of a change; [Add], [Put], [Move] and [Remove] make one.
type Edit struct {
	Deed  Deed
	Tag   Tag // of an addition only the kind, and the id of what comes back
	Value any // of an addition or a change: of the type that its kind names
	Ahead Tag // of a move, and of what comes back
}

// Deed is what is done to a thing. The words stand in the database.
type Deed string

const (
	Added   Deed = "added"
	Altered Deed = "changed"
	Moved   Deed = "moved"
	Removed Deed = "removed"
)

// Add puts a new thing at the end of its kind.
func Add(k Kind, value any) Edit { return Edit{Deed: Added, Tag: Tag{Kind: k}, Value: value} }

// Return puts back what was removed: it is the same thing again, with its id, just ahead of another of its kind; the zero Tag means
// at the end.
func Return(t Tag, value any, ahead Tag) Edit {
	return Edit{Deed: Added, Tag: t, Value: value, Ahead: ahead}
}

// Put gives a thing a new value, which may have another name.
func Put(t Tag, value any) Edit { return Edit{Deed: Altered, Tag: t, Value: value} }

// Move puts a thing just ahead of another of its kind; the zero Tag means to the end. The version of the other does not matter.
func Move(t, ahead Tag) Edit { return Edit{Deed: Moved, Tag: t, Ahead: ahead} }

// Remove takes a thing away. The audit trail keeps what it was.
func Remove(t Tag) Edit { return Edit{Deed: Removed, Tag: t} }
