package main

import (
	"context"

	"foldwright/internal/desk"
	"foldwright/internal/draw"
	"foldwright/internal/plan"
	"foldwright/internal/shop"
	speech "foldwright/internal/words"
)

// langFlag is the language that is spoken to people; what programs read is English.
type langFlag struct {
	Lang string `enum:"en,de,es,fr" default:"en" placeholder:"LANG" help:"Language: en, de, es or fr; JSON and faults stay English."`
}

// speaker speaks it, in millimetres or inches.
func (f langFlag) speaker(inch bool) *speech.Speaker {
	return speech.NewSpeaker(speech.Lang(f.Lang), inch)
}

// svg prints a picture.
func (s streams) svg(p *draw.Picture) error {
	_, err := s.out.Write(p.SVG())
	return err
}

// settingsPicture prints the flat sheet of a job with its tools, and below it the shafts on one folder.
func (s streams) settingsPicture(sh *shop.Shop, a desk.Answer, say *speech.Speaker) error {
	f, err := a.Job.Scheme.Apply(a.Job.Sheet)
	if err != nil {
		return err
	}
	return s.svg(draw.Below(draw.Dummy(f, a.Job.Operations, say), draw.Shafts(sh, a.Settings, say)))
}

// timeline prints the lanes of the plan, one day below the other.
func (c planFlags) timeline(ctx context.Context, s streams, d *desk.Desk, p *plan.Plan) error {
	shop, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	return s.svg(draw.Below(draw.Timeline(p, shop, c.speaker(shop.Inch))...))
}
