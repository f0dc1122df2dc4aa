package exchange

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// No text panics; what is refused says where and why, and what is taken is written so that it reads back the same.
func FuzzReadThing(f *testing.F) {
	s, err := ReadShop("example.yaml", read(f, "testdata/example.yaml"))
	if err != nil {
		f.Fatal(err)
	}
	kinds := ledger.Kinds()
	for i, k := range kinds {
		for _, v := range ledger.Values(s, k) {
			f.Add(byte(i), []byte(WriteThing(k, v, s)))
		}
	}
	for i, text := range []string{`{"name":"\ud83d\udc00"}`, `{"a":[[[`, "name: a\n", `{"name":1e9,"name":null}`, "[]", "\"a", "{}{}", "---\n{}", `{"\u0000":1}`, `{"scheme":"F17-1"}`} {
		f.Add(byte(i), []byte(text))
	}
	f.Fuzz(func(t *testing.T, kind byte, data []byte) {
		k := kinds[int(kind)%len(kinds)]
		v, err := ReadThing(k, data, s)
		if err != nil {
			for _, one := range fault.All(err) {
				if one.Wrong == "" || one.Code == "" || one.Kind != fault.Input || one.File != "" {
					t.Errorf("a fault that says too little: %+v", one)
				}
			}
			return
		}
		text := WriteThing(k, v, s)
		again, err := ReadThing(k, text, s)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if diff := cmp.Diff(v, again, sameShop); diff != "" {
			t.Fatalf("%s\n%s", diff, text)
		}
		if twice := WriteThing(k, again, s); !bytes.Equal(text, twice) {
			t.Fatalf("written once:\n%s\nand again:\n%s", text, twice)
		}
	})
}
