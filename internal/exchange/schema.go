package exchange

import (
	"encoding/json"
	"maps"
	"slices"
)

// schema is a piece of a JSON Schema.
type schema map[string]any

// The schemas of plain values. YAML takes a bare 305 for a number and 33 7/8 in for a text; both are lengths.
var (
	anyText  = schema{"type": []string{"string", "number"}}
	quantity = schema{"type": []string{"string", "number"}, "pattern": `^\s*[-+]?[0-9.½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]`}
)

// ShopSchema is the JSON Schema of the shop file (draft 2020-12), for editors. It knows the fields and their forms; what
// spans several fields only reading the file can tell.
func ShopSchema() []byte {
	s := shopFields.schema()
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "foldwright shop file"
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic(err) // maps and texts only
	}
	return append(out, '\n')
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
