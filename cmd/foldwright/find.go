package main

import (
	"errors"
	"io/fs"
	"os"
	"strings"

	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/units"
)

type findCommand struct {
	Pages string `required:"" placeholder:"FILE.json" help:"The wanted folios of the flat sheet, front and back."`
	JSON  bool   `name:"json" help:"As JSON."`
}

func (findCommand) Help() string {
	return `
Names every scheme of up to 8 folds that gives the pages of a printed sheet, and how the sheet must be fed for it.

The file has the folios as you see them with the sheet in hand: rows from the top; the back after turning the sheet over
like a page of a book. The left edge of the front is s0, its right edge s1, the lower edge t0, the upper t1:

             t1
     +----+----+----+----+
     |  5 | 12 |  9 |  8 |
 s0  +----+----+----+----+  s1
     |  4 | 13 | 16 |  1 |
     +----+----+----+----+
             t0

    {"front": [[5, 12, 9, 8], [4, 13, 16, 1]],
     "back":  [[7, 10, 11, 6], [2, 15, 14, 3]],
     "heads": [["down", "down", "down", "down"], ["up", "up", "up", "up"]],
     "sheet": {"length_mm": 860, "width_mm": 610}}

"back", "heads" (up, down, left, right on the front; "" does not matter) and "sheet" (length from s0 to s1; then plate
stops are told) may be left out. Folio 0 is a page that may be anything. Folios may start anywhere and have gaps, as in
one of several sections.

Exit code 1 when no scheme gives these pages, 2 when the file is wrong.

Examples:

    foldwright find --pages sheet.json
    foldwright find --pages sheet.json --json
`
}

func (c findCommand) Run(s streams) error {
	data, err := os.ReadFile(c.Pages)
	if err != nil {
		return unreadable(c.Pages, err)
	}
	pages, err := exchange.ReadPages(c.Pages, data)
	if err != nil {
		return err
	}
	found, err := fold.Find(pages.Map)
	if err != nil {
		return inFile(c.Pages, err)
	}
	answer, err := exchange.Find(found, pages.Sheet)
	if err != nil {
		return err
	}
	if c.JSON {
		return s.json(answer)
	}
	showFound(s, answer, pages)
	return nil
}

// inFile puts the name of the file before faults that do not know it.
func inFile(path string, err error) error {
	faults := fault.All(err)
	if faults == nil {
		return err
	}
	for i := range faults {
		faults[i].File = path
	}
	return faults
}

// unreadable says why a file that somebody named cannot be read.
func unreadable(path string, err error) error {
	f := fault.Fault{Kind: fault.Input, Code: "file", File: path, Wrong: "cannot be read", Right: "a file that is there and may be read"}
	if errors.Is(err, fs.ErrNotExist) {
		f.Kind, f.Wrong = fault.Missing, "there is no such file"
	}
	return f
}

func showFound(s streams, answer exchange.FindAnswer, pages *exchange.Pages) {
	s.title("%s for %d × %d panels", counted(len(answer.Schemes), "scheme"), pages.Map.AlongS, pages.Map.AlongT)
	t := newTable(words("do"), words("folio 1"), words("name"), words("leading edge"), words("face up"), words(stopsHead(pages)))
	for _, f := range answer.Schemes {
		for _, feed := range f.Feeds {
			stops := make([]string, len(feed.StopsMM))
			for i, stop := range feed.StopsMM {
				stops[i] = units.FormatMM(units.MM(stop))
			}
			t.row(f.Do, f.First, f.Name, feed.LeadingEdge, feed.FaceUp, strings.Join(stops, ", "))
		}
	}
	t.write(s)
}

// stopsHead heads the column of stops, which is empty when the file does not tell the size of the sheet.
func stopsHead(pages *exchange.Pages) string {
	if pages.Sheet == nil {
		return ""
	}
	return "stops in mm"
}
