package exchange

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"

	"foldwright/internal/plan"
)

// A shop file with slips of the pen: values exchanged with others of the file or with odd ones, pieces taken out or
// written twice. Nothing panics; what is read is written and read back the same; and what check finds well can be planned.
func TestSlipsOfThePen(t *testing.T) {
	data := read(t, "testdata/example.yaml")
	planned := 0
	rapid.Check(t, func(t *rapid.T) {
		file := slip(t, data)
		s, err := ReadShop("slip.yaml", file)
		if err != nil {
			return
		}
		again, err := ReadShop("again.yaml", WriteShop(s))
		if err != nil {
			t.Fatalf("%v\n%s", err, file)
		}
		if diff := cmp.Diff(s, again, sameShop); diff != "" {
			t.Fatalf("%s\n%s", diff, file)
		}
		CheckShop("slip.yaml", file)
		if s.Now.IsZero() {
			s.Now = time.Date(2026, 3, 2, 6, 0, 0, 0, s.Zone)
		}
		if _, err := plan.Make(context.Background(), s, s.Now, plan.Options{Seed: 1, Iterations: 1}); err != nil {
			t.Fatalf("a shop that is well cannot be planned: %v\n%s", err, file)
		}
		planned++
	})
	if planned == 0 {
		t.Error("no file with slips was well: the test shows nothing")
	}
}

// odd are values that somebody may type anywhere.
var odd = []string{
	"0", "-1", "1", "0.000001", "1000000", "1e9", "", "yes", "no", "x", "80 to 80", "0 to 1", "1 to 100000", "00:00-24:00", "23:59-00:01",
	"up 1/2", "up 1/3, down 1/3", "left", "zigzag 16", "A0", "1 x 1", "10 m x 10 m", "2026-03-02 06:00", "2199-12-31 23:59", "4711", "alder", "slit @ 1", "slit",
}

// slip makes one to three slips.
func slip(t *rapid.T, data []byte) []byte {
	var document yaml.Node
	if err := yaml.Unmarshal(data, &document); err != nil {
		t.Fatal(err)
	}
	var values []string
	var scalars, holders []*yaml.Node
	walk(content(&document), func(n *yaml.Node) {
		if n.Kind == yaml.ScalarNode {
			scalars, values = append(scalars, n), append(values, n.Value)
		} else if len(n.Content) > 0 {
			holders = append(holders, n)
		}
	})
	for range rapid.IntRange(1, 3).Draw(t, "slips") {
		switch rapid.SampledFrom([]string{"value", "odd", "gone", "twice"}).Draw(t, "kind") {
		case "value":
			*rapid.SampledFrom(scalars).Draw(t, "at") = *scalar(rapid.SampledFrom(values).Draw(t, "value"))
		case "odd":
			*rapid.SampledFrom(scalars).Draw(t, "at") = *scalar(rapid.SampledFrom(odd).Draw(t, "odd"))
		case "gone":
			change(t, rapid.SampledFrom(holders).Draw(t, "in"), slices.Delete)
		case "twice":
			change(t, rapid.SampledFrom(holders).Draw(t, "in"), func(all []*yaml.Node, from, to int) []*yaml.Node {
				return append(all, all[from:to]...)
			})
		}
	}
	out, err := yaml.Dump(&document)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// change does something to one field or item of a node.
func change(t *rapid.T, n *yaml.Node, do func(all []*yaml.Node, from, to int) []*yaml.Node) {
	step := 1
	if n.Kind == yaml.MappingNode {
		step = 2
	}
	if len(n.Content) < step {
		return
	}
	at := rapid.IntRange(0, len(n.Content)/step-1).Draw(t, "which") * step
	n.Content = do(slices.Clone(n.Content), at, at+step)
}

func walk(n *yaml.Node, visit func(*yaml.Node)) {
	visit(n)
	for _, c := range n.Content {
		walk(c, visit)
	}
}
