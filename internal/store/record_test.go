package store

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
)

var same = cmp.Options{
	cmpopts.EquateEmpty(),
	cmp.Comparer(func(a, b *time.Location) bool { return a.String() == b.String() }),
}

// Whatever stands in a shop, its rows hold all of it. (Two things of one name are for the rules of the shop to refuse.)
func TestRowsHoldTheWholeShop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := filled(t)
		kept, err := rows{}.replacedBy(want)
		for i := range fault.All(err) {
			if f := fault.All(err)[i]; f.Code == CodeKeep && strings.Contains(f.Field, `\x00`) {
				t.Skip("a name with a zero byte is refused")
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		s := &Store{check: func(*shop.Shop, func(*job.Job) bool) fault.List { return nil }}
		got := s.assemble(kept, 1, unseen()).Shop
		if diff := cmp.Diff(want, got, same); diff != "" {
			t.Fatal(diff)
		}
		if !got.Now.IsZero() && got.Now.Location() != got.Zone {
			t.Fatalf("moments are shown by %s, the shop's clock is %s", got.Now.Location(), got.Zone)
		}
		again, err := rows{}.replacedBy(got)
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range keepings {
			for i, r := range kept[k.kind] {
				if again[k.kind][i].body != r.body {
					t.Fatalf("written once: %s\nand again: %s", r.body, again[k.kind][i].body)
				}
			}
		}
	})
}

var update = flag.Bool("update", false, "write golden files that are not there yet")

// Bodies of format 1, with something in every field, are read for ever and say what they said: what this test reads was
// written once and is never written again. A new format gets a file of its own beside it.
func TestBodiesOfOldReadOn(t *testing.T) {
	const file = "testdata/bodies-1.txt"
	if *update {
		writeBodies(t, file)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[ledger.Kind]bool{}
	for line := range strings.Lines(string(text)) {
		kind, body, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "\t")
		seen[ledger.Kind(kind)] = true
		k, known := keepingOf(ledger.Kind(kind))
		if !known {
			t.Fatalf("there is no kind %q any more", kind)
		}
		value, err := k.read([]byte(body))
		if err != nil {
			t.Errorf("%s: %v\n%s", kind, err, body)
			continue
		}
		if again, err := k.encode(value); err != nil || again.body != body {
			t.Errorf("%s: %v\nread:    %s\nwritten: %s", kind, err, body, again.body)
		}
	}
	if len(seen) != len(keepings) {
		t.Errorf("only %d of %d kinds are in the file", len(seen), len(keepings))
	}
}

// writeBodies writes the bodies of some shops with odd values, once.
func writeBodies(t *testing.T, file string) {
	var text strings.Builder
	for seed := range 12 {
		kept, err := rows{}.replacedBy(rapid.Custom(filled).Example(seed))
		if err != nil {
			continue
		}
		for _, k := range keepings {
			for _, r := range kept[k.kind] {
				fmt.Fprintf(&text, "%s\t%s\n", r.kind, r.body)
			}
		}
	}
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return
	}
	if _, err = f.WriteString(text.String()); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// What cannot come back as it is is refused at the door.
func TestWhatCannotBeKeptIsRefused(t *testing.T) {
	for name, value := range map[string]any{
		"bytes that are no text": job.Job{Name: "a", Title: "caf\xe9"},
		"a number that is none":  paper.Stock{Name: "a", Volume: math.NaN()},
		"endless":                paper.Stock{Name: "a", Volume: math.Inf(1)},
		"no such finish":         paper.Stock{Name: "a", Finish: 9},
		"a year of five digits":  job.Job{Name: "a", Due: time.Date(12026, 1, 1, 0, 0, 0, 0, time.UTC)},
		"a zone without a name":  ledger.Head{Name: "a", Zone: time.FixedZone("here", 3600)},
		"a zero byte in a name":  shop.Person{Name: "a\x00"},
	} {
		t.Run(name, func(t *testing.T) {
			kind := map[bool]ledger.Kind{true: ledger.OfStock, false: ledger.OfJob}[strings.Contains(name, "number") || strings.Contains(name, "endless") || strings.Contains(name, "finish")]
			switch value.(type) {
			case ledger.Head:
				kind = ledger.OfShop
			case shop.Person:
				kind = ledger.OfPerson
			}
			k, _ := keepingOf(kind)
			_, err := k.encode(value)
			var f fault.Fault
			if !errors.As(err, &f) || f.Code != CodeKeep || f.Right == "" {
				t.Errorf("got %v, want a fault %s", err, CodeKeep)
			}
		})
	}
}

// A field that this program does not know would be lost at the next writing.
func TestUnknownFieldsAreNotDropped(t *testing.T) {
	for kind, body := range map[ledger.Kind]string{
		ledger.OfPerson:    `{"name":"a","calendar":"day","height":3}`,
		ledger.OfStandards: `{"docket":"4m0s","coffee":"5m0s"}`,
		ledger.OfClass:     `{"name":"a","diameter_nm":1,"length_nm":2} {}`,
		ledger.OfStock:     `{"name":"a","finish":"shiny"}`,
		ledger.OfShop:      `{"name":"a","zone":"Nowhere/Atall"}`,
		ledger.OfJob:       `{"name":"a","scheme":{"steps":[{"op":"up","share":"half"}]}}`,
	} {
		k, _ := keepingOf(kind)
		if v, err := k.read([]byte(body)); err == nil {
			t.Errorf("%s was read as %+v", body, v)
		}
	}
}

// Order by positions, whatever is moved where: ascending, and nobody else's position changes while there is room. (A gap of
// 2^20 can be halved twenty times.)
func TestPositions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := make([]row, rapid.IntRange(1, 6).Draw(t, "things"))
		settle(list)
		for n := range rapid.IntRange(1, 60).Draw(t, "moves") {
			from, to := rapid.IntRange(0, len(list)-1).Draw(t, "from"), rapid.IntRange(0, len(list)-1).Draw(t, "to")
			one := list[from]
			one.position = 0
			list = append(list[:from:from], list[from+1:]...)
			list = append(list[:to:to], append([]row{one}, list[to:]...)...)
			before := slices.Clone(list)
			settle(list)
			for i := range list {
				if n < 15 && i != to && list[i].position != before[i].position {
					t.Fatalf("moving one to %d moved %d too: %+v", to, i, list)
				}
			}
			for i := range list {
				if list[i].position <= 0 || i > 0 && list[i].position <= list[i-1].position {
					t.Fatalf("not ascending at %d: %+v", i, list)
				}
			}
		}
	})
}
