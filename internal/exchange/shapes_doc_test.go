package exchange

import (
	"bytes"
	"encoding/json"
	"regexp"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/ledger"
)

// What the page on shapes shows is read, and written as it stands there.
func TestShapesPageIsTrue(t *testing.T) {
	text := read(t, "../../docs/api-shapes.md")
	found := regexp.MustCompile("(?s)<!-- (thing|document): (\\w+) -->\n```json\n(.*?)```").FindAllSubmatch(text, -1)
	if len(found) < 4 {
		t.Fatalf("only %d examples", len(found))
	}
	for _, f := range found {
		what, shown := string(f[2]), f[3]
		var got []byte
		if string(f[1]) == "thing" {
			v, err := ReadThing(ledger.Kind(what), shown, nil)
			if err != nil {
				t.Errorf("%s: %v", what, err)
				continue
			}
			got = WriteThing(ledger.Kind(what), v, nil)
		} else {
			v, err := Records().Read(shown, nil)
			if err != nil {
				t.Errorf("%s: %v", what, err)
				continue
			}
			got = Records().Write(v, nil)
		}
		var want bytes.Buffer
		if err := json.Compact(&want, shown); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want.String(), string(got)); diff != "" {
			t.Errorf("%s: %s", what, diff)
		}
	}
}
