package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"foldwright/internal/words"
)

// hostile are names that somebody may well type or paste.
var hostile = []string{
	"\U0001F600 smile", "控制台", "שלום", "a\tb\nc", "\x00\x1b[31m", "<b>&\"'</b>", "%s %d %", strings.Repeat("long ", 60), strings.Repeat("W", 400), "", "e\u0301", "\xff\xfe",
}

// Whatever a title or a name holds, the pages can be read, the SVG is sound XML and the PDF a sound file.
func TestHostileNames(t *testing.T) {
	d := theDay(t)
	for _, name := range hostile {
		c := *d.card(t, "2101")
		j, f, task := *c.Job, *c.Folder, c.Task
		j.Title, j.Customer, j.Name, f.Name = name, name, name, name
		j.Stock.Name = name
		task.Job = name
		c.Job, c.Folder, c.Task = &j, &f, task
		pages := pagesOf(t, &c, A4, words.NewSpeaker(words.German, true))
		for _, p := range pages {
			holdLayout(t, "card of "+name, p)
			holdXML(t, p.SVG())
		}
		file, _ := written(t, pages)
		if said := call(t, "qpdf", "--check", file); !strings.Contains(said, "No syntax or stream encoding errors found") {
			t.Errorf("card of %q: qpdf says %s", name, said)
		}
		b, on := *d.builds[0], *d.builds[0].Set
		b.Job, b.Folder, b.Set, on.Label = name, name, &on, name
		for _, p := range pagesOf(t, &b, Letter, words.NewSpeaker(words.Spanish, false)) {
			holdLayout(t, "bench card of "+name, p)
		}
		day := *d.plan
		day.Shop = name
		for _, p := range Timeline(&day, d.shop, words.NewSpeaker(words.English, false)) {
			holdLayout(t, "day of "+name, p)
		}
		set := d.labels[3]
		set.Set, set.Jobs = name, []string{name, name}
		holdLayout(t, "label of "+name, label(t, set, words.NewSpeaker(words.French, false)))
	}
}

func holdXML(t *testing.T, data []byte) {
	t.Helper()
	for dec := xml.NewDecoder(strings.NewReader(string(data))); ; {
		if _, err := dec.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Errorf("the SVG is no XML: %v", err)
			return
		}
	}
}
