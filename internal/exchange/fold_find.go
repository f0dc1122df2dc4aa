package exchange

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/units"
)

// Pages is what a pages file holds: the wanted folios of a flat sheet, and its size when the plate stops are wanted too.
type Pages struct {
	Map   fold.FolioMap
	Sheet *fold.Sheet
}

// pagesFile is the file as a planner writes it with the printed sheet in hand: rows from the top, as one looks at the
// front; the back after turning the sheet over like a page of a book. Left is s = 0, the bottom t = 0. So back[r][c]
// is behind front[r][last − c].
type pagesFile struct {
	Sheet *FlatSize  `json:"sheet"`
	Front [][]int    `json:"front"`
	Back  [][]int    `json:"back"`
	Heads [][]string `json:"heads"`
}

const pagesBytes = 1 << 20 // far more than 64 panels need

// ReadPages reads a pages file; name is for the faults.
func ReadPages(name string, data []byte) (*Pages, error) {
	file, err := decodePages(data)
	if err != nil {
		return nil, inFile(name, fault.All(err))
	}
	r := pagesReading{file: file}
	out := &Pages{Map: r.folios()}
	if file.Sheet != nil {
		out.Sheet = r.sheet()
	}
	if len(r.faults) > 0 {
		return nil, inFile(name, r.faults)
	}
	return out, nil
}

func inFile(name string, faults fault.List) error {
	for i := range faults {
		faults[i].File = name
	}
	return faults.Err()
}

func decodePages(data []byte) (pagesFile, error) {
	var file pagesFile
	if len(data) > pagesBytes {
		return file, badPages(0, "", "the file is too long", "a few lines: see foldwright find --help")
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	err := d.Decode(&file)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			return file, badPages(lineAt(data, d.InputOffset()), "", "something follows the closing brace", "one object a file")
		}
		return file, nil
	}
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		return file, badPages(lineAt(data, syntax.Offset), "", "no JSON: "+syntax.Error(), "")
	case errors.As(err, &kind):
		return file, badPages(lineAt(data, kind.Offset), kind.Field, "a "+kind.Value+" where none fits",
			"folios are whole numbers, heads are words, sizes are numbers")
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return file, badPages(lineAt(data, int64(len(data))), "", "the file ends too early", "an object with front and back")
	}
	return file, badPages(0, "", strings.TrimPrefix(err.Error(), "json: "), "the fields sheet, front, back and heads")
}

func badPages(line int, field, wrong, right string) fault.Fault {
	return fault.Fault{Kind: fault.Input, Code: "fold-pages", Line: line, Field: field, Wrong: wrong, Right: right}
}

func lineAt(data []byte, offset int64) int {
	return 1 + bytes.Count(data[:min(int(offset), len(data))], []byte("\n"))
}

// pagesReading turns the rows into a map and collects what is wrong.
type pagesReading struct {
	file   pagesFile
	faults fault.List
}

func (r *pagesReading) bad(field, wrong, right string) {
	r.faults.Add(badPages(0, field, wrong, right))
}

func (r *pagesReading) folios() fold.FolioMap {
	front := r.file.Front
	if len(front) == 0 || len(front[0]) == 0 {
		r.bad("front", "no folios", `rows of folios from the top: [[8, 1], [5, 4]]`)
		return fold.FolioMap{}
	}
	rows, columns := len(front), len(front[0])
	if !grid(r, "front", front, rows, columns) {
		return fold.FolioMap{}
	}
	backOK := r.file.Back == nil || grid(r, "back", r.file.Back, rows, columns)
	headsOK := r.file.Heads == nil || grid(r, "heads", r.file.Heads, rows, columns)
	m := fold.FolioMap{AlongS: columns, AlongT: rows}
	for c := range columns {
		for row := rows - 1; row >= 0; row-- {
			folio := front[row][c]
			m.Top = append(m.Top, folio)
			if backOK {
				m.Bottom = append(m.Bottom, r.behind(row, c, folio))
			}
			if r.file.Heads != nil && headsOK {
				m.Heads = append(m.Heads, r.head(row, c))
			}
		}
	}
	return m
}

// behind is the folio on the back of a panel; where no back is told, the one that belongs to the leaf.
func (r *pagesReading) behind(row, column, folio int) int {
	switch {
	case r.file.Back != nil:
		cells := r.file.Back[row]
		return cells[len(cells)-1-column]
	case folio <= 0:
		return 0
	}
	return (folio - 1) ^ 1 + 1
}

func grid[T any](r *pagesReading, field string, cells [][]T, rows, columns int) bool {
	if len(cells) != rows {
		r.bad(field, fmt.Sprintf("%d rows", len(cells)), fmt.Sprintf("%d, as on the front", rows))
		return false
	}
	for i, row := range cells {
		if len(row) != columns {
			r.bad(fmt.Sprintf("%s[%d]", field, i), fmt.Sprintf("%d entries", len(row)), fmt.Sprintf("%d, as in the first row of the front", columns))
			return false
		}
	}
	return true
}

func (r *pagesReading) head(row, column int) fold.Head {
	switch text := r.file.Heads[row][column]; text {
	case "up":
		return fold.HeadTPlus
	case "down":
		return fold.HeadTMinus
	case "left":
		return fold.HeadSMinus
	case "right":
		return fold.HeadSPlus
	case "":
	default:
		r.bad(fmt.Sprintf("heads[%d][%d]", row, column), fmt.Sprintf("%q is no direction", text), "up, down, left, right, or empty where it does not matter")
	}
	return fold.HeadNone
}

func (r *pagesReading) sheet() *fold.Sheet {
	const least, most = 1, 10_000
	size := r.file.Sheet
	if min(size.LengthMM, size.WidthMM) < least || max(size.LengthMM, size.WidthMM) > most {
		r.bad("sheet", "no sheet has this size", "length_mm and width_mm, each 1 to 10000")
		return nil
	}
	return &fold.Sheet{Length: units.MM(size.LengthMM), Width: units.MM(size.WidthMM)}
}

// FindAnswer is what `find --json` prints.
type FindAnswer struct {
	Schemes []foundScheme `json:"schemes"`
}

type foundScheme struct {
	Do    string      `json:"do"`
	Name  string      `json:"name,omitempty"`
	First string      `json:"first"`
	Folds int         `json:"folds"`
	Feeds []foundFeed `json:"feeds"`
}

// foundFeed is a way to feed the sheet. The stops are there when the pages file tells the size of the sheet.
type foundFeed struct {
	LeadingEdge string    `json:"leading_edge"`
	FaceUp      string    `json:"face_up"`
	StopsMM     []float64 `json:"stops_mm,omitempty"`
}

// Find is the answer to `find`; sheet may be nil.
func Find(found []fold.Found, sheet *fold.Sheet) (FindAnswer, error) {
	out := FindAnswer{Schemes: []foundScheme{}}
	for _, f := range found {
		s := foundScheme{Do: f.Scheme.String(), Name: f.Scheme.Name, First: f.Scheme.First.String(), Folds: f.Scheme.Folds()}
		for _, feed := range f.Feeds {
			one := foundFeed{LeadingEdge: feed.Leading.String(), FaceUp: "front"}
			if feed.Up == fold.FaceDown {
				one.FaceUp = "back"
			}
			stops, err := stopsOf(f.Scheme, feed, sheet)
			if err != nil {
				return out, err
			}
			one.StopsMM = stops
			s.Feeds = append(s.Feeds, one)
		}
		out.Schemes = append(out.Schemes, s)
	}
	return out, nil
}

func stopsOf(s fold.Scheme, feed fold.Feed, sheet *fold.Sheet) ([]float64, error) {
	if sheet == nil {
		return nil, nil
	}
	folded, err := s.Apply(feed.Fed(*sheet))
	if err != nil {
		return nil, err
	}
	var stops []float64
	for i, step := range s.Steps {
		if step.Op.IsFold() {
			stops = append(stops, folded.FoldDepth(i+1).MM())
		}
	}
	return stops, nil
}
