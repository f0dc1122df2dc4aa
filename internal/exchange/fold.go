package exchange

import (
	"foldwright/internal/fold"
	"foldwright/internal/units"
)

// FoldAnswer is what `fold --json` prints: the sheet, the stack after every step, every panel and every crease.
type FoldAnswer struct {
	Sheet    FlatSize     `json:"sheet"`
	Do       string       `json:"do"`
	Name     string       `json:"name,omitempty"`
	First    string       `json:"first"`
	LapMM    float64      `json:"lap_mm,omitempty"`
	Finished StackSize    `json:"finished"`
	Trimmed  *FlatSize    `json:"trimmed,omitempty"`
	Steps    []foldStep   `json:"steps"`
	Panels   []foldPanel  `json:"panels"`
	Creases  []foldCrease `json:"creases"`
}

// FlatSize is the size of something flat.
type FlatSize struct {
	LengthMM float64 `json:"length_mm"`
	WidthMM  float64 `json:"width_mm"`
}

// StackSize is the size of a stack with its layers.
type StackSize struct {
	FlatSize
	Layers int `json:"layers"`
}

// foldStep is a step and the stack after it.
type foldStep struct {
	Op      string   `json:"op"`   // fold or turn
	Side    string   `json:"side"` // up or down; left or right
	DepthMM *float64 `json:"depth_mm,omitempty"`
	StackSize
}

type foldPanel struct {
	S           [2]float64 `json:"s_mm"`
	T           [2]float64 `json:"t_mm"`
	Layer       int        `json:"layer"`
	TopFaceUp   bool       `json:"top_face_up"`
	TopFolio    int        `json:"top_folio,omitempty"`
	BottomFolio int        `json:"bottom_folio,omitempty"`
	Head        string     `json:"head,omitempty"`
}

type foldCrease struct {
	Step   int     `json:"step"`
	Axis   string  `json:"axis"`
	AtMM   float64 `json:"at_mm"`
	FromMM float64 `json:"from_mm"`
	ToMM   float64 `json:"to_mm"`
	Kind   string  `json:"kind"`
}

// Fold is the answer to `fold`.
func Fold(f *fold.Folded) FoldAnswer {
	a := FoldAnswer{
		Sheet: sizeOf(f.Sheet.Length, f.Sheet.Width), Do: f.Scheme.String(), Name: f.Scheme.Name,
		First: f.Scheme.First.String(), LapMM: f.Scheme.Lap.MM(), Finished: stackOf(f.Finished()),
		Steps: []foldStep{}, Panels: []foldPanel{}, Creases: []foldCrease{},
	}
	if f.Scheme.Trims != (fold.Trims{}) {
		trimmed := f.Trimmed()
		size := sizeOf(trimmed.Length, trimmed.Width)
		a.Trimmed = &size
	}
	for i, step := range f.Scheme.Steps {
		a.Steps = append(a.Steps, stepOf(f, i+1, step))
	}
	for _, p := range f.Panels {
		a.Panels = append(a.Panels, panelOf(p))
	}
	for _, c := range f.Creases {
		a.Creases = append(a.Creases, foldCrease{
			Step: c.Step, Axis: c.Axis.String(), AtMM: c.At.MM(), FromMM: c.From.MM(), ToMM: c.To.MM(), Kind: c.Bend.String(),
		})
	}
	return a
}

func sizeOf(length, width units.Length) FlatSize { return FlatSize{length.MM(), width.MM()} }

func stackOf(s fold.State) StackSize { return StackSize{sizeOf(s.Length, s.Width), s.Layers} }

func stepOf(f *fold.Folded, number int, step fold.Step) foldStep {
	out := foldStep{Op: "turn", Side: step.Op.String(), StackSize: stackOf(f.States[number])}
	if step.Op.IsFold() {
		depth := f.FoldDepth(number).MM()
		out.Op, out.DepthMM = "fold", &depth
	}
	return out
}

func panelOf(p fold.Panel) foldPanel {
	return foldPanel{
		S: [2]float64{p.S[0].MM(), p.S[1].MM()}, T: [2]float64{p.T[0].MM(), p.T[1].MM()},
		Layer: p.Layer, TopFaceUp: p.TopFaceUp, TopFolio: p.TopFolio, BottomFolio: p.BottomFolio, Head: p.Head.String(),
	}
}
