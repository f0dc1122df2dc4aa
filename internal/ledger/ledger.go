// Package ledger is the language in which changes of a shop are spoken: what sorts of things there are, which version of a
// thing somebody saw, what shall become of it, and what the audit trail tells afterwards.
//
// It keeps nothing itself. Whoever keeps the shop takes an [Edit] only when its [Tag] still is the thing's; who asks for a
// change takes tags from the [Snapshot] that was looked at. So no change overwrites another unseen.
package ledger

import (
	"foldwright/internal/fault"
	"foldwright/internal/shop"
)

// The codes of changes that cannot be.
const (
	CodeNoShop fault.Code = "no-shop"           // nothing was put into the ledger yet
	CodeStale  fault.Code = "changed-meanwhile" // the thing was changed or removed since it was read
	CodeTwice  fault.Code = "name-taken"        // a thing of that kind and name is there already
)

// By says who makes a change, and what it is about in words for the audit trail.
type By struct{ Who, What string }

// Tag names a thing together with the version that was seen of it. It is what an edit must show.
type Tag struct {
	Kind    Kind
	ID      string // stays when the name changes
	Name    string
	Version int64 // the revision of the last change of the thing; never used twice
}

// Snapshot is the whole shop at one moment. It is shared: nobody changes it, nor what it points to.
type Snapshot struct {
	Revision int64      // of the last change; 0 when there was none yet
	Shop     *shop.Shop // nil when there is none yet
	Faults   fault.List // what the rules of this program find wrong with it
	Things   map[Kind][]Tag
}

// Tags gives the tags of a kind in the order of its list in the shop.
func (s *Snapshot) Tags(k Kind) []Tag { return s.Things[k] }

// Tag gives the tag of a thing by its name, which is empty for what a shop has one of.
func (s *Snapshot) Tag(k Kind, name string) (Tag, bool) {
	for _, t := range s.Things[k] {
		if t.Name == name {
			return t, true
		}
	}
	return Tag{}, false
}
