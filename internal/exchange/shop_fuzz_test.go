package exchange

import (
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/fault"
)

// No file panics, none half-loads, every fault says where and what, and a shop that was read is written so that it reads
// back the same.
func FuzzReadShop(f *testing.F) {
	files, err := filepath.Glob("testdata/faults/*.yaml")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range append(files, "testdata/example.yaml", "testdata/example.tidy.yaml", "../demo/shop.yaml") {
		f.Add(read(f, file))
	}
	f.Add([]byte(bomb()))
	f.Fuzz(func(t *testing.T, data []byte) {
		found := CheckShop("fuzz.yaml", data)
		s, err := ReadShop("fuzz.yaml", data)
		if (s == nil) == (err == nil) {
			t.Fatalf("shop %v and error %v", s, err)
		}
		bad := 0
		for _, one := range found {
			if one.Wrong == "" || one.Code == "" || one.File == "" {
				t.Errorf("a fault that says too little: %+v", one)
			}
			if one.Kind != fault.No {
				bad++
			}
		}
		if (bad > 0) != (err != nil) {
			t.Fatalf("check finds %d faults, reading says %v", bad, err)
		}
		if s == nil {
			return
		}
		again, err := ReadShop("again.yaml", WriteShop(s))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(s, again, sameShop); diff != "" {
			t.Fatal(diff)
		}
	})
}
