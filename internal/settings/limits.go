package settings

import (
	"foldwright/internal/machine"
	"foldwright/internal/units"
)

// feeder holds the sheet to the feeder's limits.
func (w *walk) feeder(r relation) bool {
	f := &w.folder.Feeder
	sheet := r.extent(w.folded.States[0])
	return w.between(f.Length, sheet.Length, sheetLong, sheetShort) && w.between(f.Width, sheet.Width, sheetWide, sheetNarrow) &&
		w.weight()
}

// between holds a size to a range; a greatest of zero is no limit.
func (w *walk) between(limit machine.Range, is units.Length, over, under troubleKind) bool {
	if limit.Max > 0 && is > limit.Max {
		return w.misfit(trouble{kind: over, have: limit.Max, need: is, bad: short(limit.Max, is)})
	}
	if is < limit.Min {
		return w.misfit(trouble{kind: under, have: limit.Min, need: is, bad: short(limit.Min, is)})
	}
	return true
}

// weight holds the stock to the feeder's grammage; 0 is no limit.
func (w *walk) weight() bool {
	f, is := &w.folder.Feeder, w.job.Stock.Grammage
	if (f.MaxGrammage > 0 && is > f.MaxGrammage) || is < f.MinGrammage {
		return w.nearest && w.misfit(overweight(f, is))
	}
	return true
}

// widest is the greatest width that unit u takes: its own, or that of the feeder when it has none. The feeder itself is
// asked before unit 1.
func (w *walk) widest(u int) units.Length {
	if most := w.folder.Units[u].WidthMax; most > 0 || u == 0 {
		return most
	}
	return w.folder.Feeder.Width.Max
}

// thin holds so many layers to the nips of unit u.
func (w *walk) thin(u, layers int) bool {
	unit, thick := &w.folder.Units[u], units.Length(layers)*w.caliper
	if unit.ThicknessMax == 0 || thick <= unit.ThicknessMax {
		return true
	}
	return w.misfit(trouble{
		kind: stackThick, unit: u + 1, layers: layers, have: unit.ThicknessMax, need: thick,
		bad: short(unit.ThicknessMax, thick),
	})
}
