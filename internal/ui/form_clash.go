package ui

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/words"
)

// conflict is what somebody else made of the thing meanwhile, beside what was typed.
type conflict struct {
	Fault fault.Fault // who changed what, when
	Parts []part
}

// part is something that differs: a field, or a list whose rows are not the same in number.
type part struct {
	Path         string
	Label        words.Text
	Mine, Theirs string
}

// takeMark begins the inputs that say whose part is taken.
const takeMark = "take:"

// meet puts what was typed beside what is there by now. Whoever saves again has seen it, so the form goes on from that version.
func (f *form) meet(now desk.Thing, value any, why fault.Fault) error {
	mine, err := f.written(value)
	if err != nil {
		return err
	}
	theirs, err := f.written(now.Value)
	if err != nil {
		return err
	}
	f.Version, f.Name = now.Version, now.Name
	f.Theirs = &conflict{Fault: why, Parts: f.differing(f.thing, mine, theirs, "")}
	return nil
}

// differing lists the parts in which two trees differ.
func (f *form) differing(v *exchange.Value, mine, theirs *tree, path string) (parts []part) {
	switch {
	case mine.flat() == theirs.flat():
		return nil
	case v.Form == exchange.FormGroup && mine != nil && theirs != nil && mine.named && theirs.named:
		for i := range v.Fields {
			field := &v.Fields[i]
			parts = append(parts, f.differing(&field.Value, mine.at(field.Name), theirs.at(field.Name), join(path, field.Name))...)
		}
		return parts
	case v.Form == exchange.FormList && mine != nil && theirs != nil && len(mine.items) == len(theirs.items):
		for i := range mine.items {
			parts = append(parts, f.differing(v.Each, mine.items[i], theirs.items[i], fmt.Sprintf("%s[%d]", path, i))...)
		}
		return parts
	}
	return []part{{Path: path, Label: labelOf(f.Kind, path), Mine: mine.flat(), Theirs: theirs.flat()}}
}

// flat is all that stands in a tree, on one line.
func (t *tree) flat() string {
	if t == nil || !t.whole {
		if t == nil {
			return ""
		}
		return t.text
	}
	var all []string
	for i, item := range t.items {
		text := item.flat()
		switch {
		case text == "":
			continue
		case t.named:
			text = strings.TrimPrefix(t.names[i], tableMark) + " " + text
		}
		all = append(all, text)
	}
	if t.named {
		return strings.Join(all, "; ")
	}
	return strings.Join(all, ", ")
}

// takeTheirs puts their part in the place of what was typed, wherever the form says so.
func (p *pages) takeTheirs(r *http.Request, f *form) error {
	var paths []string
	for name := range r.PostForm {
		if path, ok := strings.CutPrefix(name, takeMark); ok && r.PostForm.Get(name) == "theirs" {
			paths = append(paths, path)
		}
	}
	if len(paths) == 0 {
		return nil
	}
	slices.Sort(paths)
	now, there, err := p.thingNow(r, f)
	if err != nil || !there {
		return err
	}
	theirs, err := f.written(now.Value)
	if err != nil {
		return err
	}
	for _, path := range paths {
		f.take(theirs, path)
	}
	return nil
}

// take replaces one part by theirs.
func (f *form) take(theirs *tree, path string) {
	their, _ := theirs.find(f.thing, path)
	mine, of := f.typed.find(f.thing, path)
	switch {
	case mine == nil:
		return
	case their == nil: // they have nothing there
		*mine = *empty(of)
	default:
		*mine = *their
	}
}
