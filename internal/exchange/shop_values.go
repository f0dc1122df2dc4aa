package exchange

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/machine"
	"foldwright/internal/paper"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// The codes of values that no other room reads.
const (
	CodeNumber fault.Code = "number"
	CodeWord   fault.Code = "word"
	CodeZone   fault.Code = "zone"
)

// The kinds of values of the shop file. Each leaves reading and writing to the room that owns the quantity.
var (
	words = text("a name or a few words", anyText,
		func(_ *reading, t string) (string, error) { return t, nil },
		func(_ *writing, v string) string { return v })

	length = text("a length such as 305, 305 mm or 12 1/64 in", quantity,
		func(r *reading, t string) (units.Length, error) { return units.ParseLength(t, r.bare) }, lengthText).as(FormLength)

	offset = text("a length such as 8 or -8", quantity,
		func(r *reading, t string) (units.Length, error) { return units.ParseOffset(t, r.bare) }, lengthText).as(FormLength)

	thickness = text("a thickness such as 0.098, 98 µm or 10 pt", quantity,
		func(r *reading, t string) (units.Length, error) { return units.ParseThickness(t, r.bare) }, lengthText).as(FormThickness)

	reach = text("the least and the most, such as 80 to 520", schema{"type": "string", "pattern": " to |–"},
		func(r *reading, t string) (machine.Range, error) {
			least, most, err := units.ParseRange(t, r.bare)
			return machine.Range{Min: least, Max: most}, err
		},
		func(w *writing, v machine.Range) string { return twoLengths(w, v.Min, " to ", v.Max) }).as(FormRange)

	grammage = text("a grammage such as 80 or 60 lb text", quantity,
		func(_ *reading, t string) (units.Grammage, error) { return units.ParseGrammage(t) },
		func(_ *writing, v units.Grammage) string { return strings.TrimSuffix(v.Exact(), " g/m²") }).as(FormGrammage)

	grammages = text("the least and the most, such as 40 to 250", schema{"type": "string", "pattern": " to |–"}, parseGrammages,
		func(_ *writing, v [2]units.Grammage) string {
			return strings.TrimSuffix(v[0].Exact(), " g/m²") + " to " + strings.TrimSuffix(v[1].Exact(), " g/m²")
		}).as(FormRange)

	speed = text("a speed such as 150 or 5900 in/min", quantity,
		func(_ *reading, t string) (units.Speed, error) { return units.ParseSpeed(t) },
		func(_ *writing, v units.Speed) string {
			const places = 9 // nanometres in a metre
			return strings.TrimRight(strings.TrimRight(big.NewRat(int64(v), int64(units.MetrePerMin)).FloatString(places), "0"), ".")
		}).as(FormSpeed)

	minutes = text("minutes such as 12, 1.5, 90 s or 1 h 20", quantity,
		func(_ *reading, t string) (time.Duration, error) { return units.ParseMinutes(t) },
		func(_ *writing, v time.Duration) string { return minutesText(v) }).as(FormMinutes)

	count = text("a whole number such as 12000", schema{"type": "integer"},
		func(_ *reading, t string) (int, error) { return parseCount(t) },
		func(_ *writing, v int) string { return strconv.Itoa(v) }).as(FormCount)

	number = text("a number such as 0.25", schema{"type": "number"},
		func(_ *reading, t string) (float64, error) { return parseNumber(t) },
		func(_ *writing, v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }).as(FormNumber)

	yes = word("yes or no", map[string]bool{"yes": true, "no": false, "true": true, "false": false}, []string{"yes", "no"}).as(FormYes)

	sheetSize = text("a size such as 860 x 610, 25 x 38 in or SRA1", schema{"type": "string"},
		func(r *reading, t string) (fold.Sheet, error) {
			length, width, err := paper.ParseSize(t, r.bare)
			return fold.Sheet{Length: length, Width: width}, err
		},
		func(w *writing, v fold.Sheet) string { return twoLengths(w, v.Length, " x ", v.Width) })

	notation = text("folds and turns such as up 1/2, left, up 1/2", schema{"type": "string"},
		func(r *reading, t string) (fold.Scheme, error) { return fold.ParseIn(t, r.bare) },
		func(_ *writing, v fold.Scheme) string { return v.String() })

	operation = text("an operation such as perforate fold 2", schema{"type": "string"},
		func(r *reading, t string) (job.Operation, error) { return job.ParseOperation(t, r.bare) },
		func(_ *writing, v job.Operation) string { return v.String() })

	toolType = text("a tool such as perforate 12 tpi or slit", schema{"type": "string"},
		func(r *reading, t string) (tooling.Type, error) { return tooling.ParseType(t, r.bare) },
		func(_ *writing, v tooling.Type) string { return v.String() })

	toolAt = text("a tool at its place, such as perforate 12 tpi @ 305", schema{"type": "string", "pattern": "@"},
		func(r *reading, t string) (tooling.Tool, error) { return tooling.Parse(t, r.bare) },
		func(w *writing, v tooling.Tool) string { return v.Type.String() + " @ " + lengthText(w, v.At) })

	face     = word("up or down", map[string]fold.Face{"up": fold.FaceUp, "down": fold.FaceDown}, []string{"up", "down"})
	side     = word("left or right", map[string]machine.Side{"left": machine.LeftSide, "right": machine.RightSide}, []string{"left", "right"})
	unitKind = word("buckle or knife", map[string]machine.UnitKind{"buckle": machine.Buckle, "knife": machine.Knife}, []string{"buckle", "knife"})
	entry    = word("straight, left or right", map[string]machine.Entry{"straight": machine.Straight, "left": machine.TurnLeft, "right": machine.TurnRight},
		[]string{"straight", "left", "right"})
	firstPlate = word("above or below", map[string]bool{"above": false, "below": true}, []string{"above", "below"})
	setWay     = word("swap, built or in_folder", map[string]job.Way{"swap": job.Swap, "built": job.Built, "in_folder": job.InFolder}, []string{"swap", "built", "in_folder"})
	measure    = word("mm or inch", map[string]bool{"mm": false, "inch": true}, []string{"mm", "inch"})
	finish     = oneOf(text("uncoated, coated, laminated or board", schema{"enum": []string{"uncoated", "coated", "laminated", "board"}},
		func(_ *reading, t string) (paper.Finish, error) { return paper.ParseFinish(t) },
		func(_ *writing, v paper.Finish) string { return v.String() }), "uncoated", "coated", "laminated", "board")
)

// word makes the shape of values that are one of a few words; names lists those that are written.
func word[V comparable](says string, meaning map[string]V, names []string) shape[V] {
	told := make([]any, 0, len(names)+2)
	for _, n := range names {
		told = append(told, n)
	}
	if names[0] == "yes" {
		told = append(told, true, false)
	}
	return oneOf(text(says, schema{"enum": told},
		func(_ *reading, t string) (V, error) {
			if v, ok := meaning[strings.ToLower(t)]; ok {
				return v, nil
			}
			var none V
			return none, fault.Fault{Kind: fault.Input, Code: CodeWord, Wrong: quoted(t) + " means nothing here", Right: "write " + says}
		},
		func(_ *writing, v V) string {
			i := slices.IndexFunc(names, func(n string) bool { return meaning[n] == v })
			if i < 0 {
				return fmt.Sprint(v) // a value that no file can hold: reading it back says so
			}
			return names[i]
		}), names...)
}

// oneOrMore lets a list of one stand without its brackets.
func oneOrMore[V any](of shape[V]) shape[[]V] {
	many := list(of, true)
	return shape[[]V]{
		Value: Value{Form: FormList, Says: of.Says + ", or a list", Each: &of.Value, Or: &of.Value},
		told:  schema{"anyOf": []any{of.told, many.told}},
		read: func(s spot) ([]V, bool) {
			if s.node.Kind != yaml.ScalarNode || s.isNull() {
				return many.read(s)
			}
			v, ok := of.read(s)
			return []V{v}, ok
		},
		write: many.write,
	}
}

// lengthText writes a length so that it reads back the same: in the bare unit where that is exact.
func lengthText(w *writing, l units.Length) string {
	if !w.inch {
		return strings.TrimSuffix(l.Exact(), " mm")
	}
	if fraction, exact := l.Fraction(); exact {
		return fraction
	}
	return l.Exact()
}

// twoLengths writes two lengths in one unit, for a unit written with one of them would count for both.
func twoLengths(w *writing, a units.Length, between string, b units.Length) string {
	first, second := lengthText(w, a), lengthText(w, b)
	if strings.HasSuffix(first, "mm") || strings.HasSuffix(second, "mm") {
		first, second = a.Exact(), b.Exact()
	}
	return first + between + second
}

// minutesText writes a duration in minutes, or in words when it is no whole number of minutes.
func minutesText(d time.Duration) string {
	if d%time.Minute == 0 {
		return strconv.FormatInt(int64(d/time.Minute), 10)
	}
	return units.FormatMinutes(d)
}

// parseGrammages reads a range of grammages; a unit after the second counts for both when the first has none.
func parseGrammages(_ *reading, t string) (out [2]units.Grammage, err error) {
	first, second, ok := strings.Cut(t, " to ")
	if !ok {
		return out, fault.Fault{Kind: fault.Input, Code: units.CodeLeastMost, Wrong: quoted(t) + " is no range", Right: "write the least and the most with to between them, such as 40 to 250"}
	}
	if unit := strings.TrimLeft(second, "0123456789., "); strings.TrimLeft(first, "0123456789., ") == "" {
		first += " " + unit
	}
	if out[0], err = units.ParseGrammage(first); err != nil {
		return out, err
	}
	out[1], err = units.ParseGrammage(second)
	return out, err
}

// parseCount reads a whole number.
func parseCount(t string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(t))
	switch {
	case errors.Is(err, strconv.ErrRange):
		return 0, fault.Fault{Kind: fault.Input, Code: CodeNumber, Wrong: quoted(t) + " is too large", Right: "write a number of at most nine digits"}
	case err != nil:
		return 0, fault.Fault{Kind: fault.Input, Code: CodeNumber, Wrong: quoted(t) + " is no whole number", Right: "write digits only, such as 12000"}
	}
	return n, nil
}

// parseNumber reads a decimal number.
func parseNumber(t string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(t), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fault.Fault{Kind: fault.Input, Code: CodeNumber, Wrong: quoted(t) + " is no number", Right: "write a number such as 0.25"}
	}
	return v, nil
}

// quoted shows what was typed, shortened.
func quoted(t string) string { return strconv.Quote(shorten(t)) }

func decimal(n int) string { return strconv.Itoa(n) }
