package main

import (
	"fmt"

	"foldwright/internal/fold"
	speech "foldwright/internal/words"
)

// folded prints what becomes of a sheet.
func (p sheet) folded(f *fold.Folded) {
	facts := newTable(words(""), words(""))
	facts.row(p.in("Sheet"), p.size(f.Sheet.Length, f.Sheet.Width))
	facts.row(p.in("Finished"), p.finished(f))
	if f.Scheme.Trims != (fold.Trims{}) {
		trimmed := f.Trimmed()
		facts.row(p.in("Trimmed"), p.size(trimmed.Length, trimmed.Width))
	}
	facts.write(p.streams)
	p.gap()
	p.steps(f)
	p.gap()
	p.faces(f)
	if len(f.Creases) > 0 {
		p.gap()
		p.creases(f)
	}
}

func (p sheet) finished(f *fold.Folded) string {
	end := f.Finished()
	about := speech.Joined{speech.Plain(p.size(end.Length, end.Width)), speech.Count(end.Layers, "%d layer", "%d layers")}
	if f.Folios {
		about = append(about, speech.T("%d pages", 2*len(f.Panels)), firstFolio(f.Scheme.First))
	}
	return p.in("%s", about)
}

// firstFolio says where folio 1 looks.
func firstFolio(face fold.Face) speech.Text {
	if face == fold.FaceDown {
		return speech.T("folio 1 looks down")
	}
	return speech.T("folio 1 looks up")
}

func (p sheet) steps(f *fold.Folded) {
	t := newTable(figures(p.in("step")), words(p.in("do")), figures(p.in("stop")), words(p.in("stack, length × width")), figures(p.in("layers")))
	for i, step := range f.Scheme.Steps {
		stop := ""
		if step.Op.IsFold() {
			stop = p.length(f.FoldDepth(i + 1))
		}
		after := f.States[i+1]
		t.row(fmt.Sprint(i+1), step.String(), stop, p.size(after.Length, after.Width), fmt.Sprint(after.Layers))
	}
	t.write(p.streams)
}

// creases prints one line for each fold line, with its bend along the way.
func (p sheet) creases(f *fold.Folded) {
	t := newTable(figures(p.in("fold")), words(p.in("line")), words(p.in("seen from the front")))
	for i := 0; i < len(f.Creases); {
		line := f.Creases[i]
		var bends speech.Joined
		for ; i < len(f.Creases) && f.Creases[i].Fold == line.Fold && f.Creases[i].At == line.At; i++ {
			bends = append(bends, p.bend(f.Creases[i]))
		}
		t.row(fmt.Sprint(line.Fold), line.Axis.String()+" = "+p.length(line.At), p.in("%s", bends))
	}
	t.write(p.streams)
}

// bend says how a stretch of a line is bent; the line has named the unit of its lengths already.
func (p sheet) bend(c fold.Crease) speech.Text {
	if c.Bend == fold.Mountain {
		return speech.T("mountain %s to %s", p.bare(c.From), p.bare(c.To))
	}
	return speech.T("valley %s to %s", p.bare(c.From), p.bare(c.To))
}
