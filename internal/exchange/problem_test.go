package exchange

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/fault"
)

func TestProblem(t *testing.T) {
	due := fault.Fault{Code: "job-times", Field: "due", Wrong: "due before its release", Right: "a later time"}
	name := fault.Fault{Code: "name", Field: "name", Line: 3, Col: 7, Wrong: "the name is empty"}
	kind := func(k fault.Kind) fault.Fault { return fault.Fault{Kind: k, Code: "what", Wrong: "it is so"} }
	for _, c := range []struct {
		what string
		err  error
		want string
	}{
		{"one", due, `{"type":"/docs/faults#job-times","title":"The input is wrong","status":422,"detail":"due: due before its release; a later time",` +
			`"errors":[{"field":"due","wrong":"due before its release","right":"a later time","code":"job-times"}]}`},
		{"wrapped", fmt.Errorf("job 7: %w", due), `{"type":"/docs/faults#job-times","title":"The input is wrong","status":422,"detail":"due: due before its release; a later time",` +
			`"errors":[{"field":"due","wrong":"due before its release","right":"a later time","code":"job-times"}]}`},
		{"two codes", fault.List{name, due}, `{"type":"/docs/faults","title":"The input is wrong","status":422,"detail":"3:7: name: the name is empty (and one more)",` +
			`"errors":[{"field":"name","line":3,"col":7,"wrong":"the name is empty","code":"name"},{"field":"due","wrong":"due before its release","right":"a later time","code":"job-times"}]}`},
		{"no", kind(fault.No), `{"type":"/docs/faults#what","title":"The answer is no","status":422,"detail":"it is so","errors":[{"wrong":"it is so","code":"what"}]}`},
		{"missing", kind(fault.Missing), `{"type":"/docs/faults#what","title":"There is no such thing","status":404,"detail":"it is so","errors":[{"wrong":"it is so","code":"what"}]}`},
		{"conflict", kind(fault.Conflict), `{"type":"/docs/faults#what","title":"Somebody else changed it first","status":409,"detail":"it is so","errors":[{"wrong":"it is so","code":"what"}]}`},
		{"denied", kind(fault.Denied), `{"type":"/docs/faults#what","title":"This is not allowed","status":403,"detail":"it is so","errors":[{"wrong":"it is so","code":"what"}]}`},
		{"the program's own", errors.New("disk full at /var/lib/x"), `{"type":"about:blank","title":"Internal Server Error","status":500}`},
	} {
		got, err := json.Marshal(Problem(c.err))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(c.want, string(got)); diff != "" {
			t.Errorf("%s: %s", c.what, diff)
		}
	}
}

// A record that names a folder which does not exist and has a wrong time is wrong input, not a missing page.
func TestProblemOfSeveralKinds(t *testing.T) {
	missing, wrong, denied := fault.Fault{Kind: fault.Missing}, fault.Fault{Kind: fault.Input}, fault.Fault{Kind: fault.Denied}
	for _, c := range []struct {
		found fault.List
		want  int
	}{
		{fault.List{missing, wrong}, 422},
		{fault.List{missing, missing, missing}, 404},
		{fault.List{wrong, denied}, 403},
	} {
		if got := Problem(c.found).Status; got != c.want {
			t.Errorf("got %d, want %d", got, c.want)
		}
	}
}
