package shop

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"foldwright/internal/fault"
	"foldwright/internal/job"
)

// The codes of what can be wrong between the parts of a shop.
const (
	CodeName        fault.Code = "name"           // a name that cannot be one
	CodeTwice       fault.Code = "name-twice"     // two things of one name
	CodeUnknownName fault.Code = "unknown-name"   // a name that names nothing
	CodeTool        fault.Code = "tool-stock"     // figures of a tool that cannot be
	CodeUnlisted    fault.Code = "tool-unlisted"  // a tool that stands on a set and in no list
	CodePlace       fault.Code = "set-place"      // a set in no place or in several, or where another stands
	CodeClass       fault.Code = "set-class"      // a set in a station of another class
	CodeOffShaft    fault.Code = "tool-off-shaft" // a tool that does not fit on its shaft
	CodeOverlap     fault.Code = "tool-overlap"   // two tools that do not fit beside each other
	CodeStation     fault.Code = "station-shaft"  // a station longer than its shafts
	CodePresent     fault.Code = "present"        // a present state that cannot be
	CodeAbsence     fault.Code = "absence"        // a time down or away that ends before it begins
	CodePin         fault.Code = "pin"            // pins that contradict
	CodeCycle       fault.Code = "after-cycle"    // jobs that wait for one another
	CodeUnfoldable  fault.Code = "job-unfoldable" // a job that no folder can fold
	CodeGiven       fault.Code = "job-given"      // a folder that cannot fold what is said to stand on it
	CodeWeight      fault.Code = "weight"         // a price that cannot be
	CodeHouse       fault.Code = "house"          // a rule of the house that cannot be
	CodeStock       fault.Code = "stock"          // figures of a stock that cannot be
	CodeZone        fault.Code = "shop-zone"      // no time zone
)

// FaultsMost is how many faults are listed before a check gives up: beyond that nobody reads, and the shop is another
// kind of file or meant to do harm.
const FaultsMost = 1000

// Check lists every fault of the shop (the first [FaultsMost] of them), each with the path of its field as the shop file has it, such as
// folders[2].units[1].plates[0]. Names are looked up as they are; so one wrong name gives one fault at each place where it
// is used. It grows with the size of the shop times the logarithm of it, and with the square of the tools on one set.
func (s *Shop) Check() fault.List {
	return s.CheckBut(func(*job.Job) bool { return false })
}

// CheckBut is Check for a shop of which much was checked before: a job that sound tells of passed its own check, as it is
// now, and is not folded again for it. What it names, and what names it, is checked all the same.
func (s *Shop) CheckBut(sound func(*job.Job) bool) fault.List {
	c := &checker{shop: s, sound: sound, ahead: map[int]int{}}
	c.head()
	c.calendars()
	c.classes()
	c.tools()
	c.folders()
	c.sets()
	c.present()
	c.bench()
	c.stocks()
	c.jobs()
	c.pins()
	c.cycles()
	c.under("standards", s.Standards.Check())
	c.weights()
	c.house()
	return c.faults
}

// checker gathers faults.
type checker struct {
	shop   *Shop
	sound  func(*job.Job) bool
	faults fault.List
	ahead  map[int]int // the job pinned just ahead of a job, by numbers among the jobs
}

// add adds a fault of the input.
func (c *checker) add(code fault.Code, field, wrong, right string) {
	if c.full() {
		return
	}
	c.faults.Add(fault.Fault{Kind: fault.Input, Code: code, Field: field, Wrong: wrong, Right: right})
}

func (c *checker) full() bool { return len(c.faults) >= FaultsMost }

// under adds what a room found in its own value, which stands at path.
func (c *checker) under(path string, found fault.List) {
	for _, f := range found {
		if c.full() {
			return
		}
		f.Field = strings.TrimSuffix(path+"."+f.Field, ".")
		c.faults.Add(f)
	}
}

func (c *checker) head() {
	if c.shop.Zone == nil {
		c.add(CodeZone, "zone", "the shop has no time zone", "name one such as Europe/Berlin")
	}
	c.name("shop", c.shop.Name)
}

// nameMost is the longest name, in letters: it must fit on a label and in a column of a table.
const nameMost = 60

// name holds a name to what can be written on a label and in a table.
func (c *checker) name(field, name string) {
	switch {
	case name == "":
		c.add(CodeName, field, "the name is empty", "write a short name")
	case !utf8.ValidString(name) || strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }):
		c.add(CodeName, field, fmt.Sprintf("the name %q holds signs that cannot be printed", clip(name)), "write letters, digits and blanks")
	case name == "." || name == "..": // in an address, browsers take them for a way up
		c.add(CodeName, field, fmt.Sprintf("the name %q has no letter", name), "write letters, digits and blanks")
	case strings.TrimSpace(name) != name:
		c.add(CodeName, field, fmt.Sprintf("the name %q starts or ends with a blank", clip(name)), fmt.Sprintf("write %q", clip(strings.TrimSpace(name))))
	case utf8.RuneCountInString(name) > nameMost:
		c.add(CodeName, field, fmt.Sprintf("the name %q has %d letters", clip(name), utf8.RuneCountInString(name)), fmt.Sprintf("at most %d", nameMost))
	}
}

// names holds the names of a list to their rules: each is one, and none comes twice. A room that says itself what is
// wrong with an empty name is not repeated.
func (c *checker) names(list, field string, names []string) {
	first := map[string]int{}
	for i, name := range names {
		path := fmt.Sprintf("%s[%d].%s", list, i, field)
		if name != "" {
			c.name(path, name)
		}
		if k, twice := first[name]; twice && name != "" {
			c.add(CodeTwice, path, fmt.Sprintf("%q is the name of %s[%d] too", clip(name), list, k), "give each its own name")
			continue
		}
		first[name] = i
	}
}

// nameList is the names there are, in order and for looking up.
type nameList struct {
	names []string
	has   map[string]bool
}

func listed(names []string) nameList {
	has := make(map[string]bool, len(names))
	for _, n := range names {
		has[n] = true
	}
	return nameList{names, has}
}

// known says when a name names nothing; what is "calendar", "folder" and so on.
func (c *checker) known(field, what, name string, all nameList) bool {
	switch {
	case all.has[name]:
		return true
	case c.full():
	case name == "" && len(all.names) > 0:
		c.add(CodeUnknownName, field, "no "+what+" is named", "name one: "+few(all.names))
	default:
		c.add(CodeUnknownName, field, fmt.Sprintf("there is no %s %q", what, clip(name)), DidYouMean(name, what, all.names))
	}
	return false
}

// DidYouMean completes the fault of an unknown name: the nearest known one, or those there are.
func DidYouMean(name, what string, known []string) string {
	if near, ok := Nearest(name, known); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if len(known) == 0 {
		return "the shop has no " + what + " at all"
	}
	return "known: " + few(known)
}

// few lists some names.
func few(names []string) string {
	const most = 6
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s, … (%d in all)", strings.Join(names[:most], ", "), len(names))
}

// clip keeps what was typed short enough for a message.
func clip(text string) string {
	const most = 40
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}
