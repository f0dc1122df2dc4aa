package main

import (
	"context"
	"fmt"
	"strings"

	"foldwright/internal/desk"
	"foldwright/internal/draw"
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
	SVG  bool `name:"svg" xor:"as" help:"As a picture: the shafts on the folder named, else on the best one, as SVG."`
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
		return s.svg(draw.Shafts(shop, answers[0].Settings, c.speaker(shop.Inch)))
	}
	sheet{s, c.speaker(shop.Inch)}.answers(answers)
	return no
}

// sheet writes settings for people, in their language and in millimetres or inches.
type sheet struct {
	streams
	words *speech.Speaker
}

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
		fmt.Sprintf("%s (%s)", j.Stock.Name, j.Stock.Grammage.Format()),
		fmt.Sprintf("%d sheets", j.Sheets),
	}
	if !j.Due.IsZero() {
		about = append(about, "due "+j.Due.Format(dayTime))
	}
	p.say("%s", strings.Join(about, ", "))
	p.say("%s", p.scheme(j.Scheme))
	for _, op := range j.Operations {
		p.say("%s", op)
	}
}

// dayTime is a moment of the plan's days.
const dayTime = "Mon 2 Jan 15:04"

// scheme is the folds in the notation, with what goes with them.
func (p sheet) scheme(sc fold.Scheme) string {
	text := sc.String()
	if sc.Name != "" {
		text = sc.Name + ": " + text
	}
	text += fmt.Sprintf("; folio 1 %s", sc.First)
	if sc.Lap != 0 {
		text += ", lap " + p.length(sc.Lap)
	}
	for _, trim := range []struct {
		edge string
		by   units.Length
	}{{"head", sc.Trims.Head}, {"foot", sc.Trims.Foot}, {"front", sc.Trims.Front}} {
		if trim.by != 0 {
			text += fmt.Sprintf(", %s trimmed %s", trim.edge, p.length(trim.by))
		}
	}
	return text
}

// folders is one line a folder that can, best first.
func (p sheet) folders(list []desk.Answer) {
	t := newTable(words("folder"), figures("make-ready min"), figures("run min"), figures("sheets/h"), words("limited by"))
	for _, a := range list {
		if a.Miss == nil {
			t.row(a.Folder.Name, minutes(a.Makeready), minutes(a.Run), fmt.Sprint(a.Settings.SheetsPerHour), p.words.Text(a.Settings.RateLimit))
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
		p.title("%s cannot", a.Folder.Name)
		for why := range strings.SplitSeq(p.words.Text(a.Miss.Why), "; ") {
			p.say("  %s", why)
		}
	}
}

// answer is everything the operator sets on one folder.
func (p sheet) answer(a desk.Answer) {
	set := a.Settings
	p.title("On %s", a.Folder.Name)
	p.say("feed      edge %s leads, %s up", set.Feed.Leading, set.Feed.FaceUp)
	p.say("rate      %d sheets/h, limited by %s", set.SheetsPerHour, p.words.Text(set.RateLimit))
	if set.Streams > 1 {
		p.say("streams   %d pieces side by side", set.Streams)
	}
	for i := range set.Units {
		p.gap()
		p.unit(&set.Units[i], a.Stations)
	}
	p.gap()
	p.minutes(a)
	p.notes(set.Notes)
	p.cautions()
}
