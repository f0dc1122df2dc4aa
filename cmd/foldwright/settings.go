package main

import (
	"context"
	"fmt"
	"strings"

	"foldwright/internal/desk"
	"foldwright/internal/fold"
	"foldwright/internal/units"
	speech "foldwright/internal/words"
)

type settingsCommand struct {
	Job    string `arg:"" names:"job" help:"The docket number or name of the job."`
	Folder string `names:"folder" placeholder:"NAME" help:"Only this folder; without it all of them, best first."`
	shopFlag
	langFlag
	JSON bool `name:"json" xor:"as" help:"As JSON."`
	SVG  bool `name:"svg" xor:"as" help:"As a picture: flat sheet and shafts on the folder named, else on the best one, as SVG."`
}

func (settingsCommand) Help() string {
	return `
All there is to set: which edge leads and which face is up, every plate stop and nip, the side guides, the tools on every
station with the sets that serve, and the minutes from what stands on the folder now. Positions on a shaft are measured
from the datum shoulder on the operator's side. A folder that cannot run the job says how near it comes.

Exit codes: 0 at least one folder can, 1 none can, 2 no such job or a bad file.

Examples:

    foldwright settings 2101
    foldwright settings 2101 --folder alder --shop shop.yaml --json
    foldwright settings 2101 --folder alder --svg > shafts.svg
`
}

func (c settingsCommand) Run(ctx context.Context, s streams) error {
	d := c.desk(s)
	answers, no := d.Settings(ctx, c.Job, c.Folder)
	if answers == nil {
		return no
	}
	if c.JSON {
		if err := s.json(settingsJSON(answers, c.Folder != "")); err != nil {
			return err
		}
		return no
	}
	shop, err := d.Shop(ctx)
	if err != nil {
		return err
	}
	if c.SVG && answers[0].Miss == nil {
		return s.settingsPicture(shop, answers[0], c.speaker(shop.Inch))
	}
	sheet{s, c.speaker(shop.Inch)}.answers(answers)
	return no
}

// sheet writes for people, in their language and in millimetres or inches.
type sheet struct {
	streams
	words *speech.Speaker
}

// in is a text in the reader's language.
func (p sheet) in(key string, args ...any) string { return p.words.Say(key, args...) }

// line prints a text in the reader's language, so far from the left.
func (p sheet) line(indent, key string, args ...any) { p.say("%s%s", indent, p.in(key, args...)) }

// head prints a heading in the reader's language.
func (p sheet) head(key string, args ...any) { p.title("%s", p.in(key, args...)) }

func (p sheet) answers(list []desk.Answer) {
	p.job(list[0])
	if len(list) > 1 && list[0].Miss == nil {
		p.gap()
		p.folders(list)
	}
	p.misses(list)
	if list[0].Miss == nil {
		p.gap()
		p.answer(list[0])
	}
}

// job is the docket in one line or two.
func (p sheet) job(a desk.Answer) {
	j := a.Job
	p.title("%s  %s", j.Name, j.Title)
	about := []string{
		p.size(j.Sheet.Length, j.Sheet.Width),
		fmt.Sprintf("%s (%s)", j.Stock.Name, p.words.Grammage(j.Stock.Grammage)),
		p.in("%d sheets", j.Sheets),
	}
	if !j.Due.IsZero() {
		about = append(about, p.in("due %s", p.day(j.Due)))
	}
	p.say("%s", strings.Join(about, ", "))
	p.say("%s", p.scheme(j.Scheme))
	for _, op := range j.Operations {
		p.say("%s", p.words.Text(op.Words()))
	}
}

// scheme is the folds in the notation, with what goes with them.
func (p sheet) scheme(sc fold.Scheme) string {
	text := sc.String()
	if sc.Name != "" {
		text = sc.Name + ": " + text
	}
	more := speech.Joined{firstFolio(sc.First)}
	if sc.Lap != 0 {
		more = append(more, speech.T("lap %s", speech.Fine(sc.Lap)))
	}
	for _, trim := range []struct {
		key string
		by  units.Length
	}{{"trim %s at the head", sc.Trims.Head}, {"trim %s at the foot", sc.Trims.Foot}, {"trim %s at the front", sc.Trims.Front}} {
		if trim.by != 0 {
			more = append(more, speech.T(trim.key, speech.Fine(trim.by)))
		}
	}
	return text + "; " + p.in("%s", more)
}

// folders is one line a folder that can, best first.
func (p sheet) folders(list []desk.Answer) {
	t := newTable(words(p.in("folder")), figures(p.in("make-ready min")), figures(p.in("run min")), figures(p.in("sheets/h")), words(p.in("limited by")))
	for _, a := range list {
		if a.Miss == nil {
			t.row(a.Folder.Name, p.minutes(a.Makeready), p.minutes(a.Run), p.in("%d", a.Settings.SheetsPerHour), p.words.Text(a.Settings.RateLimit))
		}
	}
	t.write(p.streams)
}

// misses says of every folder that cannot how near it comes, one reason a line.
func (p sheet) misses(list []desk.Answer) {
	for _, a := range list {
		if a.Miss == nil {
			continue
		}
		p.gap()
		p.head("%s cannot", a.Folder.Name)
		for _, why := range a.Miss.Whys {
			p.say("  %s", p.words.Text(why))
		}
	}
}

// answer is everything the operator sets on one folder.
func (p sheet) answer(a desk.Answer) {
	set := a.Settings
	p.head("On %s", a.Folder.Name)
	t := newTable(words(""), words(""))
	t.row(p.in("feed"), p.in("edge %s leads, %s", string(set.Feed.Leading), set.Feed.FaceUp.Words()))
	t.row(p.in("rate"), p.in("%d sheets/h, limited by %s", set.SheetsPerHour, set.RateLimit))
	if set.Streams > 1 {
		t.row(p.in("streams"), p.in("%d pieces side by side", set.Streams))
	}
	t.write(p.streams)
	for i := range set.Units {
		p.gap()
		p.unit(&set.Units[i], a.Stations)
	}
	p.gap()
	p.makeready(a)
	p.notes(set.Notes)
	p.cautions()
}
