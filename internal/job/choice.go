package job

import "foldwright/internal/units"

// Choice is a way to its tools, or a place for a side guide, that was chosen for a job on the folder where it stands in the order given:
// dearer for the job itself, it is good for those that come later. Whatever cannot be had when the time comes does not count.
type Choice struct {
	Station string // empty: the choice is of a guide
	Way     Way    // how the set gets to the station
	Set     string
	Unit    int          // without a station: whose guide, from 1
	Guide   units.Length // and where it stands, from the datum shoulder
}

// Way is how a set gets to a station.
type Way string

const (
	Swap     Way = "swap"      // swapped in as it is
	Built    Way = "built"     // built on the bench before, then swapped in
	InFolder Way = "in_folder" // stripped and fitted at the machine
)
