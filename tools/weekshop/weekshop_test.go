package main

import (
	"bytes"
	"testing"

	"foldwright/internal/demo"
	"foldwright/internal/exchange"
)

// A made week is a shop without faults whose jobs can all be folded, and the same for the same seed.
func TestWeeksAreSound(t *testing.T) {
	for seed := range uint64(3) {
		var files [2][]byte
		for n := range files {
			s, err := demo.Shop()
			if err != nil {
				t.Fatal(err)
			}
			grow(s, 400, seed)
			files[n] = exchange.WriteShop(s)
		}
		if !bytes.Equal(files[0], files[1]) {
			t.Errorf("seed %d gives two weeks", seed)
		}
		if found := exchange.CheckShop("week.yaml", files[0]); len(found) > 0 {
			t.Errorf("seed %d: %v", seed, found)
		}
		s, err := exchange.ReadShop("week.yaml", files[0])
		if err != nil || len(s.Jobs) != 400 || len(s.Folders) != 6 {
			t.Fatalf("seed %d: %d jobs on %d folders, %v", seed, len(s.Jobs), len(s.Folders), err)
		}
		waiting, coming := 0, 0
		for _, j := range s.Jobs {
			if len(j.After) > 0 {
				waiting++
			}
			if !j.Release.IsZero() {
				coming++
			}
		}
		if waiting < 3 || coming < 40 {
			t.Errorf("seed %d: %d jobs wait for others, %d for their sheets", seed, waiting, coming)
		}
	}
}
