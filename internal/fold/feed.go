package fold

// SheetEdge is an edge of the flat sheet as drawn.
type SheetEdge uint8

const (
	S0 SheetEdge = iota // where s = 0: leading as drawn
	S1
	T0 // where t = 0: left as drawn
	T1
)

// String gives "s0", "s1", "t0" or "t1".
func (e SheetEdge) String() string { return [...]string{"s0", "s1", "t0", "t1"}[e] }

// Feed is a way to put the sheet as drawn on the feed table: which edge leads and which of its faces looks up. FaceUp is
// the face that looks up as drawn.
type Feed struct {
	Leading SheetEdge
	Up      Face
}

// Feeds lists all eight, the sheet as drawn first.
func Feeds() []Feed {
	var all []Feed
	for _, up := range []Face{FaceUp, FaceDown} {
		for _, e := range []SheetEdge{S0, S1, T0, T1} {
			all = append(all, Feed{e, up})
		}
	}
	return all
}

// axis is the flat axis that lies along the travel.
func (f Feed) axis() Axis {
	if f.Leading == T0 || f.Leading == T1 {
		return T
	}
	return S
}

// signs tells along which directions s and t of the fed sheet run: +1 when as drawn (along f.axis and across it), -1
// when the other way. The frame of a sheet fed face up is turned, that of a sheet fed face down is mirrored besides.
func (f Feed) signs() (along, across int) {
	along = 1
	if f.Leading == S1 || f.Leading == T1 {
		along = -1
	}
	across = along
	if f.axis() == T {
		across = -across
	}
	if f.Up == FaceDown {
		across = -across
	}
	return along, across
}

// Fed is the sheet as it lies on the feed table.
func (f Feed) Fed(sheet Sheet) Sheet {
	if f.axis() == T {
		sheet.Length, sheet.Width = sheet.Width, sheet.Length
	}
	return sheet
}

// head is a flat direction as the fed sheet has it.
func (f Feed) head(h Head) Head {
	if h == HeadNone {
		return h
	}
	along, across := f.signs()
	axis, sign := S, 1
	if h == HeadTPlus || h == HeadTMinus {
		axis = T
	}
	if h == HeadSMinus || h == HeadTMinus {
		sign = -1
	}
	if axis == f.axis() {
		return [2]Head{HeadSMinus, HeadSPlus}[index(sign*along > 0)]
	}
	return [2]Head{HeadTMinus, HeadTPlus}[index(sign*across > 0)]
}
