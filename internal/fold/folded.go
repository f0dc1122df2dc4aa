package fold

import "foldwright/internal/units"

// Axis is a direction on the flat sheet or on a stack.
type Axis uint8

const (
	S Axis = iota // along the travel
	T             // across it
)

// Folded is what a scheme makes of a sheet. It is read-only and may be shared.
type Folded struct {
	Sheet   Sheet
	Scheme  Scheme
	States  []State // States[0] is the flat sheet, States[i] the stack after step i (steps count from 1)
	Panels  []Panel // ordered by s, then t, of the flat sheet
	Creases []Crease
	// Folios tells whether the panels carry folios, that is, whether all of them cover one rectangle (allowances and
	// lap left aside).
	Folios bool

	exact exact
}

// State is the stack after a step.
type State struct {
	Length, Width units.Length
	Layers        int // the greatest number of layers anywhere
}

// Finished is the stack after the last step, before trims.
func (f *Folded) Finished() State { return f.States[len(f.States)-1] }

// Head is the flat direction that a panel's page heads point to.
type Head uint8

const (
	HeadNone Head = iota
	HeadSPlus
	HeadSMinus
	HeadTPlus
	HeadTMinus
)

// Panel is a rectangle of the flat sheet between fold lines.
type Panel struct {
	S, T        [2]units.Length // on the flat sheet
	Layer       int             // in the delivered stack: one above the highest panel that it covers any part of, bottom = 1
	TopFaceUp   bool            // the face that looked up on the feed table still does
	TopFolio    int             // the folio on the face that looks up on the feed table; 0 when there are no folios
	BottomFolio int
	Head        Head
}

// Bend says how a crease looks from the top face of the flat sheet.
type Bend uint8

const (
	Valley Bend = iota
	Mountain
)

// Crease is one straight piece of a fold line on the flat sheet: the line Axis = At, from From to To along the other axis.
type Crease struct {
	Step     int // the step that made it, from 1, turns counted
	Fold     int // the fold that made it, from 1, turns not counted
	Axis     Axis
	At       units.Length
	From, To units.Length
	Bend     Bend
}

// Track is where wanted lines of the flat sheet lie in a stack: on the stack's line Axis = At.
type Track struct {
	Axis    Axis // T: the line t = At, which runs along the travel; S: a line across it
	At      units.Length
	Wanted  int // the greatest number of wanted layers anywhere on the line
	Foreign int // the greatest number of layers on the line that are not wanted: 0 means a wheel here hits only what it should
}
