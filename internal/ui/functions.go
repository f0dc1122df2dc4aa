package ui

import (
	"bytes"
	"html/template"
	"time"

	"foldwright/internal/draw"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
	"foldwright/internal/words"
)

// functions is what templates can call. Each speaks as the reader wishes.
func functions(say *words.Speaker, a *assets) template.FuncMap {
	return template.FuncMap{
		// texts
		"say":   say.Say, // a key of the catalogue, with what goes into its places
		"text":  say.Text,
		"count": func(n int, one, many string, args ...any) string { return say.Text(words.Count(n, one, many, args...)) },
		"about": func(key string) words.Text { return words.T(key) },
		"role":  roleName,
		"lang":  func() words.Lang { return say.Lang },
		// quantities
		"length":     func(l units.Length) string { return say.Length(l) },
		"bare":       func(l units.Length) string { return say.Bare(l) },
		"unit":       say.Unit,
		"micron":     func(l units.Length) string { return say.Micron(l) },
		"grammage":   func(g units.Grammage) string { return say.Grammage(g) },
		"minutes":    func(d time.Duration) string { return say.Minutes(d) },
		"number":     func(n int) string { return say.Number(float64(n), 0) },
		"kilometres": func(thousandMetres float64) string { return say.Number(thousandMetres, 1) },
		"tool":       func(t tooling.Type) string { return say.Tool(t) },
		// times, by the clock they come with
		"clock":   clock,
		"day":     func(t time.Time) string { return day(say, t) },
		"weekday": func(t time.Time) string { return say.Text(weekdays[t.Weekday()]) },
		"moment":  func(t time.Time) string { return moment(say, t) },
		"stamp":   func(t time.Time) string { return t.Format(time.RFC3339) }, // for datetime="…"
		// pictures
		"svg":   picture,
		"icon":  func(name string) template.HTML { return icon(a, name) },
		"asset": a.url,
		// building
		"pair": pair,
	}
}

// clock is a time of day.
func clock(t time.Time) string { return t.Format("15:04") }

// day is a date with its weekday.
func day(say *words.Speaker, t time.Time) string {
	return say.Say(weekdays[t.Weekday()].Key) + " " + t.Format("2006-01-02")
}

// moment is a day and a time of day.
func moment(say *words.Speaker, t time.Time) string {
	if t.IsZero() {
		return "–"
	}
	return day(say, t) + " " + clock(t)
}

var weekdays = [...]words.Text{
	words.T("Sun"), words.T("Mon"), words.T("Tue"), words.T("Wed"), words.T("Thu"), words.T("Fri"), words.T("Sat"),
}

// picture puts a drawing into the page. Its inks are classes, which the style sheet colours for light and dark.
func picture(p *draw.Picture) template.HTML {
	if p == nil {
		return ""
	}
	return template.HTML(bytes.TrimSpace(p.SVG())) // #nosec G203 -- the drawing escapes its texts itself
}

// icon is one of ours, for the eye only: the words stand beside it.
func icon(a *assets, name string) template.HTML {
	if !a.icons[name] {
		panic("there is no icon " + name)
	}
	return template.HTML(`<svg class="icon" aria-hidden="true" focusable="false"><use href="` + a.url("icons.svg") + `#` + name + `"/></svg>`) // #nosec G203 -- a name of the sprite
}

// pair hands several things to a block: {{template "x" pair "Job" . "Way" $.Way}}.
func pair(args ...any) map[string]any {
	m := map[string]any{}
	for i := 0; i+1 < len(args); i += 2 {
		m[args[i].(string)] = args[i+1]
	}
	return m
}
