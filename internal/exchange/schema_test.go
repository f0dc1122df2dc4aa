package exchange

import (
	"bytes"
	"path/filepath"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"
)

const published = "../../docs/shop.schema.json"

// The published schema is what the program prints.
func TestSchemaIsPublished(t *testing.T) {
	got := ShopSchema()
	if *update {
		write(t, published, got)
	}
	diffLines(t, string(got), string(read(t, published)))
}

// The schema is held to a validator that is not ours: what the reader takes, it takes too.
func TestSchemaTakesWhatIsWell(t *testing.T) {
	schema := compiled(t)
	for _, file := range []string{
		"testdata/example.yaml", "testdata/example.tidy.yaml", "testdata/faults/names.yaml",
		"testdata/faults/unfoldable.yaml", "../demo/shop.yaml",
	} {
		files, err := filepath.Glob(file)
		if err != nil || len(files) == 0 {
			t.Fatal(file, err)
		}
		for _, f := range files {
			if err := schema.Validate(plain(t, read(t, f))); err != nil {
				t.Errorf("%s: %v", f, err)
			}
		}
	}
}

// Whatever is written is what the schema says.
func TestSchemaTakesWhatIsWritten(t *testing.T) {
	schema := compiled(t)
	rapid.Check(t, func(r *rapid.T) {
		text := WriteShop(anyShop(r))
		if err := schema.Validate(plain(t, text)); err != nil {
			r.Fatalf("%v\n%s", err, text)
		}
	})
}

// Faults of form are seen by the schema already.
func TestSchemaRefusesBadForm(t *testing.T) {
	schema := compiled(t)
	const head = "shop: A\nzone: UTC\n"
	for _, bad := range []string{
		"", "shop: A\n", "zone: UTC\n", "[]", "text",
		head + "colour: green\n",
		head + "jobs: none\n",
		head + "units: metric\n",
		head + "now: yesterday\n",
		head + "classes: [{name: wide, diameter: 35}]\n",
		head + "classes: [{name: wide, diameter: 35, length: long}]\n",
		head + "classes: [{name: [a], diameter: 35, length: 700}]\n",
		head + "sets: [{label: A, class: wide, tools: [perforate 12 tpi]}]\n",
		head + "sets: [{label: A, class: wide, bench: perhaps}]\n",
		head + "folders: [{name: alder, calendar: day, units: []}]\n",
		head + "folders: [{name: alder, calendar: day, feeder: {length: 200, width: 1 to 2, grammage: 1 to 2, rate: 3}}]\n",
		head + "jobs: [{name: a, sheet: 860 x 610, stock: offset, fold: up 1/2, sheets: 12.5}]\n",
		head + "jobs: [{name: a, sheet: 860 x 610, stock: {name: own}, fold: up 1/2, sheets: 12}]\n",
		head + "jobs: [{name: a, sheet: 860 x 610, stock: offset, fold: up 1/2, sheets: 12, first: left}]\n",
		head + "standards: {dockets: 4}\n",
		head + "house: {advice: {score_across: {}}}\n",
	} {
		if err := schema.Validate(plain(t, []byte(bad))); err == nil {
			t.Errorf("the schema takes\n%s", bad)
		}
	}
}

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(ShopSchema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("shop.schema.json", value); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("shop.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// plain is a YAML file as a validator takes it: mappings by text, moments as text.
func plain(t *testing.T, data []byte) any {
	t.Helper()
	var document yaml.Node
	if err := yaml.Unmarshal(data, &document); err != nil {
		t.Fatal(err)
	}
	if document.Kind == 0 {
		return nil
	}
	return plainNode(t, content(&document))
}

func plainNode(t *testing.T, n *yaml.Node) any {
	switch n.Kind {
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[n.Content[i].Value] = plainNode(t, n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		list := []any{}
		for _, c := range n.Content {
			list = append(list, plainNode(t, c))
		}
		return list
	}
	switch n.ShortTag() {
	case "!!timestamp", "!!str":
		return n.Value
	}
	var v any
	if err := n.Decode(&v); err != nil {
		t.Fatalf("%s: %v", n.Value, err)
	}
	return v
}
