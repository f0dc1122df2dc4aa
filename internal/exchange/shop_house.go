package exchange

import (
	"math"
	"strings"

	"go.yaml.in/yaml/v4"

	"foldwright/internal/settings"
	"foldwright/internal/shop"
	"foldwright/internal/tooling"
	"foldwright/internal/units"
)

// What the shop has decided for itself. All of it is written out: see [always].

var houseFields = func() record[shop.House] {
	usual := shop.DefaultHouse()
	return record[shop.House]{what: "house rules", fields: []field[shop.House]{
		always("tolerance", "the tolerance within which two patterns are alike", length, usual.Tolerance, in(func(h *shop.House) *units.Length { return &h.Tolerance })),
		group("usual", "the wheels that are meant when a docket names none", usualFields, func(h *shop.House) *map[tooling.Kind]string { return &h.Usual }),
		group("rings", "what the drive rings of a shaft need", ringFields, func(h *shop.House) *settings.Rings { return &h.Rings }),
		group("spread", "how far minutes scatter about those of a plan", spreadFields, func(h *shop.House) *shop.Spread { return &h.Spread }),
		group("advice", "when advice is given; it never blocks", adviceFields, func(h *shop.House) *settings.Advice { return &h.Advice }),
	}}
}()

// usualFields has a field for each kind of tool that comes in several specs; slitting knives are all alike.
var usualFields = func() record[map[tooling.Kind]string] {
	r := record[map[tooling.Kind]string]{what: "usual wheels", oneLine: true}
	for _, k := range []struct {
		kind  tooling.Kind
		about string
	}{
		{tooling.Perforate, "the usual perforation, such as 12 tpi, or none"},
		{tooling.Score, "the usual edge of a creasing wheel, such as 0.7 mm, or none"},
		{tooling.Strip, "the usual width of a strip, such as 6 mm, or none"},
	} {
		r.fields = append(r.fields, always(string(k.kind), k.about, spec(k.kind), shop.DefaultHouse().Usual[k.kind], access[map[tooling.Kind]string, string]{
			func(m *map[tooling.Kind]string) string { return (*m)[k.kind] },
			func(m *map[tooling.Kind]string, v string) {
				if *m == nil {
					*m = map[tooling.Kind]string{}
				}
				if delete(*m, k.kind); v != "" {
					(*m)[k.kind] = v
				}
			},
		}))
	}
	return r
}()

// spec is the spec of a kind of tool, or none.
func spec(kind tooling.Kind) shape[string] {
	return text("the spec of a tool such as 12 tpi or 6 mm, or none", anyText,
		func(r *reading, t string) (string, error) {
			if t == "none" {
				return "", nil
			}
			return tooling.ParseSpec(kind, t, r.bare)
		},
		func(_ *writing, v string) string {
			if v == "" {
				return "none"
			}
			return v
		})
}

var spreadFields = func() record[shop.Spread] {
	usual := shop.DefaultSpread()
	return record[shop.Spread]{what: "spread", oneLine: true, fields: []field[shop.Spread]{
		always("makeready", "of make-readies: the standard deviation as a share of the mean", number, usual.Makeready, in(func(s *shop.Spread) *float64 { return &s.Makeready })),
		always("run", "the same of runs", number, usual.Run, in(func(s *shop.Spread) *float64 { return &s.Run })),
		always("bench", "the same of bench work", number, usual.Bench, in(func(s *shop.Spread) *float64 { return &s.Bench })),
	}}
}()

var ringFields = func() record[settings.Rings] {
	usual := settings.DefaultRings()
	return record[settings.Rings]{what: "drive rings", oneLine: true, fields: []field[settings.Rings]{
		always("width", "the width of a drive ring", length, usual.Width, in(func(r *settings.Rings) *units.Length { return &r.Width })),
		always("clearance", "what is left free beside a ring", length, usual.Clearance, in(func(r *settings.Rings) *units.Length { return &r.Clearance })),
		always("apart", "how far apart the outermost rings are at least, as a share of the stack's width", number, usual.Apart, in(func(r *settings.Rings) *float64 { return &r.Apart })),
	}}
}()

var adviceFields = func() record[settings.Advice] {
	type advice = settings.Advice
	usual := settings.DefaultAdvice()
	return record[advice]{what: "advice", fields: []field[advice]{
		always("score_across", "score folds across the grain from this grammage", threshold, usual.ScoreAcross, in(func(a *advice) *units.Grammage { return &a.ScoreAcross })),
		always("score_along", "score folds along the grain, or where it is not known, from this grammage", threshold, usual.ScoreAlong, in(func(a *advice) *units.Grammage { return &a.ScoreAlong })),
		always("score_coated", "score coated stock in any direction from this grammage", threshold, usual.ScoreCoated, in(func(a *advice) *units.Grammage { return &a.ScoreCoated })),
		always("pierce_layers", "perforate a closed head when so many layers go into the last fold; 0: never say so", count, usual.PierceLayers, in(func(a *advice) *int { return &a.PierceLayers })),
		layerLimits(usual.MostLayers),
		always("creep", "speak of creep from so much; 0: never", length, usual.Creep, in(func(a *advice) *units.Length { return &a.Creep })),
		always("creep_round", "how round a fold is: 1 is dead sharp, 1.57 round", number, usual.CreepRound, in(func(a *advice) *float64 { return &a.CreepRound })),
		always("groove_along", "the groove of a score along the grain: so many calipers more than the edge", number, usual.GrooveAlong, in(func(a *advice) *float64 { return &a.GrooveAlong })),
		always("groove_across", "the same across the grain", number, usual.GrooveAcross, in(func(a *advice) *float64 { return &a.GrooveAcross })),
	}}
}()

// threshold is a grammage, or never.
var threshold = text("a grammage such as 115, or never", anyText,
	func(_ *reading, t string) (units.Grammage, error) {
		if t == "never" {
			return 0, nil
		}
		return units.ParseGrammage(t)
	},
	func(w *writing, v units.Grammage) string {
		if v == 0 {
			return "never"
		}
		return grammage.write(w, v).Value
	}).as(FormGrammage)

// layerLimits is how many layers a stock folds to, by the greatest grammage for which that holds.
func layerLimits(usual []settings.LayersLimit) field[settings.Advice] {
	const anyGrammage = math.MaxInt64
	f := need("most_layers", "how many layers a stock folds to, by grammage up to which that holds", shape[[]settings.LayersLimit]{
		Value: Value{Form: FormTable, Says: "grammages with layers, such as {90: 16, 150: 8, any: 2}", Each: &count.Value},
		told:  schema{"type": "object", "additionalProperties": count.told},
		read: func(s spot) (out []settings.LayersLimit, ok bool) {
			found, ok := s.pairs("grammages and layers, such as {90: 16, 150: 8, any: 2}")
			for i, p := range found {
				place := s.item(i, p.spot.node)
				limit := settings.LayersLimit{UpTo: anyGrammage}
				if p.name != "any" {
					var err error
					if limit.UpTo, err = units.ParseGrammage(p.name); err != nil {
						place.refuseErr(err)
						ok = false
					}
				}
				var good bool
				limit.Layers, good = count.read(place)
				ok = ok && good
				out = append(out, limit)
			}
			return out, ok
		},
		write: func(w *writing, all []settings.LayersLimit) *yaml.Node {
			n := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
			for _, l := range all {
				key := "any"
				if l.UpTo != anyGrammage {
					key = strings.TrimSuffix(l.UpTo.Exact(), " g/m²")
				}
				n.Content = append(n.Content, scalar(key), count.write(w, l.Layers))
			}
			return n
		},
	}, in(func(a *settings.Advice) *[]settings.LayersLimit { return &a.MostLayers }))
	f.needed = false
	f.usual = "90: 16, 150: 8, 200: 4, any: 2"
	f.absent = func(a *settings.Advice) { a.MostLayers = append([]settings.LayersLimit(nil), usual...) }
	return f
}
