package main

import (
	"foldwright/internal/draw"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/fold"
	"foldwright/internal/paper"
	"foldwright/internal/units"
)

type foldCommand struct {
	Sheet  string `required:"" placeholder:"SIZE" help:"Flat sheet, the side along the travel first: 860x610, 25 x 38 in, SRA1."`
	Do     string `xor:"what" required:"" placeholder:"STEPS" help:"Folds and turns, such as \"up 1/2, left, down 210 mm\"."`
	Scheme string `xor:"what" required:"" placeholder:"NAME" help:"A name of the fold catalogue instead, such as F16-7."`
	First  string `enum:"up,down," default:"" placeholder:"up|down" help:"The face of the folded piece that carries folio 1: up or down. Default up, or what the catalogue says."`
	Lap    string `placeholder:"LENGTH" help:"By how much one half stands out beyond the other: moves the last fold by half of it. Negative (--lap=-8): the other half."`
	Head   string `name:"trim-head" placeholder:"LENGTH" help:"Trim at the head of the folded piece."`
	Foot   string `name:"trim-foot" placeholder:"LENGTH" help:"Trim at the foot."`
	Front  string `name:"trim-front" placeholder:"LENGTH" help:"Trim at the front, opposite the spine."`
	Inch   bool   `help:"Numbers without a unit are inches, and lengths are shown in inches."`
	langFlag
	JSON bool `name:"json" xor:"as" help:"As JSON."`
	SVG  bool `name:"svg" xor:"as" help:"As a picture: folding dummy and steps, as SVG."`
}

func (foldCommand) Help() string {
	return `
Folds a sheet and tells what comes of it: the stack after every step, where each page lies, every crease.

The sheet travels; its leading edge is s = 0, its left edge, looking with the travel, t = 0. Steps, parted by commas:

    up 1/2           the leading part comes over the rest; a share is of the unfolded sheet in that direction
    down 210 mm      the leading part goes under the rest; lengths in mm (also bare), cm or in
    up 1/2 + 5 mm    a share with an allowance
    left, right      that side edge leads from now on

1/2 also halves a stack that is down to half the sheet or less. Styles stand for steps: letter inner 2 mm, zigzag 4,
roll 4 steps 2.4 mm and 1.6 mm, gate gap 3 mm, closed gate gap 3 mm, double parallel inner 0.5 mm, halves 3; "down" after
the name turns them round.

Exit code 2 when a fold lies outside the stack; the answer names the step and the depth that would do.

Examples:

    foldwright fold --sheet 860x610 --do "up 1/2, left, up 1/2, left, up 1/2"
    foldwright fold --sheet SRA1 --scheme F16-7 --lap 8 --json
    foldwright fold --sheet SRA1 --scheme F16-7 --svg > dummy.svg
    foldwright fold --sheet "11 x 8 1/2 in" --inch --do "letter inner 1/16 in"
`
}

func (c foldCommand) Run(s streams) error {
	f, err := c.folded()
	if err != nil {
		return err
	}
	say := c.speaker(c.Inch)
	switch {
	case c.JSON:
		return s.json(exchange.Fold(f))
	case c.SVG:
		return s.svg(draw.Below(draw.Dummy(f, nil, say), draw.Sequence(f, say)))
	}
	sheet{s, say}.folded(f)
	return nil
}

func (c foldCommand) folded() (*fold.Folded, error) {
	var faults fault.List
	note := func(field string, err error) {
		for _, f := range fault.All(err) {
			if f.Field == "" {
				f.Field = field
			}
			faults.Add(f)
		}
	}
	bare := units.Millimetre
	if c.Inch {
		bare = units.Inch
	}
	length, width, err := paper.ParseSize(c.Sheet, bare)
	note("--sheet", err)
	scheme, err := c.scheme(bare)
	note("", err)
	for _, wish := range []struct {
		flag, text string
		into       *units.Length
	}{
		{"--lap", c.Lap, &scheme.Lap},
		{"--trim-head", c.Head, &scheme.Trims.Head},
		{"--trim-foot", c.Foot, &scheme.Trims.Foot},
		{"--trim-front", c.Front, &scheme.Trims.Front},
	} {
		if wish.text != "" {
			*wish.into, err = units.ParseOffset(wish.text, bare)
			note(wish.flag, err)
		}
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return scheme.Apply(fold.Sheet{Length: length, Width: width})
}

func (c foldCommand) scheme(bare units.Length) (scheme fold.Scheme, err error) {
	if c.Scheme != "" {
		scheme, err = fold.Catalogue(c.Scheme)
	} else {
		scheme, err = fold.ParseIn(c.Do, bare)
	}
	switch c.First {
	case "up":
		scheme.First = fold.FaceUp
	case "down":
		scheme.First = fold.FaceDown
	}
	return scheme, err
}
