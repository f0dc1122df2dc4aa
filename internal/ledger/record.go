package ledger

import (
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/units"
)

// CodeNoRecord is the code of a record that is not there.
const CodeNoRecord fault.Code = "no-record"

// Record is what a make-ready and a run really were, as the floor tells it.
type Record struct {
	ID        string
	Version   int64
	Who       string    // wrote it down
	At        time.Time // when it was written down
	Job       string
	Folder    string
	Start     time.Time // of the make-ready
	Good      time.Time // the first good sheet: make-ready ends, the run begins; zero = not yet
	End       time.Time // of the run; zero = not yet
	Sheets    int       // folded; 0 = not told
	Plates    []AsRun   // where the stops really stood
	Tools     []AsRun   // and the tools
	Planned   time.Duration
	Disturbed string // why this one should not count as usual; empty = it counts
	Note      string
}

// AsRun is where something really stood, beside where it was to stand.
type AsRun struct {
	Where string // "unit 1 plate 2", "1A perforate 12 tpi"
	Set   units.Length
	Was   units.Length
}

// RecordQuery says which records are wanted; what is empty does not narrow it.
type RecordQuery struct {
	Job, Folder string
	From, To    time.Time // of the start, To excluded
	After       string    // continue behind the record of this id
	Most        int       // at most so many; 0 = the usual page
}
