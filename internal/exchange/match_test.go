package exchange

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"foldwright/internal/settings"
)

// The stations say what the settings say, and nothing of plates and nips.
func TestMatches(t *testing.T) {
	found := hazelSettings(t)
	got, err := json.MarshalIndent(Matches([]FolderSettings{found, {Job: "17", Folder: "rowan", Miss: &settings.Miss{}}}), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/matches.golden.json"
	if *update {
		write(t, golden, append(got, '\n'))
	}
	diffLines(t, string(got)+"\n", string(read(t, golden)))
	whole := Settings(found)
	for i, st := range Matches([]FolderSettings{found})[0].Stations {
		same := whole.Units[0].Stations[i]
		if diff := cmp.Diff([]any{same.Set, same.Serves, same.Nearest}, []any{st.Set, st.Serves, st.Nearest}); diff != "" {
			t.Error(diff)
		}
	}
}
