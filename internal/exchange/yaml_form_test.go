package exchange

import (
	"slices"
	"testing"

	"foldwright/internal/ledger"
)

// What a page is told of a field is what the schema tells of it.
func TestFieldsAreThoseOfTheSchema(t *testing.T) {
	for _, k := range ledger.Kinds() {
		sameFields(t, string(k), Fields(k), ThingSchema(k))
	}
	sameFields(t, "record", Records().Fields(), Records().Schema())
	sameFields(t, "account", Accounts().Fields(), Accounts().Schema())
	sameFields(t, "token", Tokens().Fields(), Tokens().Schema())
}

func sameFields(t *testing.T, path string, fields []Field, told schema) {
	t.Helper()
	properties, required := told["properties"].(schema), told["required"].([]string)
	if len(fields) != len(properties) || len(fields) == 0 {
		t.Errorf("%s: %d fields, %d in the schema", path, len(fields), len(properties))
	}
	for _, f := range fields {
		at := path + "." + f.Name
		property, ok := properties[f.Name].(schema)
		if !ok {
			t.Errorf("%s is not in the schema", at)
			continue
		}
		if slices.Contains(required, f.Name) != f.Needed {
			t.Errorf("%s: needed is %v", at, f.Needed)
		}
		if (property["readOnly"] == true) != f.Ours {
			t.Errorf("%s: ours is %v", at, f.Ours)
		}
		sameValue(t, at, f.Value, property)
	}
}

func sameValue(t *testing.T, at string, v Value, told schema) {
	t.Helper()
	if v.Says == "" {
		t.Errorf("%s: nothing says what to write", at)
	}
	if v.Names != "" && !slices.Contains(ledger.Kinds(), v.Names) {
		t.Errorf("%s names things of kind %q", at, v.Names)
	}
	if either, ok := told["anyOf"].([]any); ok { // the simple way to write it, and the whole
		if v.Or == nil || len(either) != 2 {
			t.Errorf("%s: only the schema knows another way to write it", at)
			return
		}
		told = either[1].(schema)
		if v.Form != FormList {
			v = *v.Or
		}
	}
	switch v.Form {
	case FormGroup:
		sameFields(t, at, v.Fields, told)
	case FormList:
		sameValue(t, at+"[]", *v.Each, told["items"].(schema))
	case FormTable:
		sameValue(t, at+"{}", *v.Each, told["additionalProperties"].(schema))
	case FormChoice:
		sameWords(t, at, v.Words, told)
	case FormCount:
		if told["type"] != "integer" {
			t.Errorf("%s: a count, and the schema says %v", at, told["type"])
		}
	case FormNumber:
		if told["type"] != "number" {
			t.Errorf("%s: a number, and the schema says %v", at, told["type"])
		}
	case FormText, FormRange, FormMoment, FormLength, FormThickness, FormGrammage, FormSpeed, FormMinutes:
		if told["type"] == nil || told["type"] == "integer" || told["type"] == "object" {
			t.Errorf("%s: a text or a quantity, and the schema says %v", at, told["type"])
		}
	case FormYes:
		if !slices.Contains(told["enum"].([]any), any(true)) {
			t.Errorf("%s: a yes or no, and the schema says %v", at, told["enum"])
		}
	default:
		t.Errorf("%s has the form %q", at, v.Form)
	}
}

// sameWords holds the words of a choice to those of the schema, where it has them.
func sameWords(t *testing.T, at string, words []string, told schema) {
	t.Helper()
	if len(words) < 2 {
		t.Errorf("%s: a choice of %q", at, words)
	}
	switch enum := told["enum"].(type) {
	case []any:
		for _, w := range words {
			if !slices.Contains(enum, any(w)) {
				t.Errorf("%s: the schema does not know %q", at, w)
			}
		}
	case []string:
		if !slices.Equal(words, enum) {
			t.Errorf("%s: %q and %q", at, words, enum)
		}
	}
}
