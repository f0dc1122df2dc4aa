package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/internal/schedule"
)

// Published values are reached from the files as published. Sources: testdata/SOURCE.md.
func TestReachesPublishedValues(t *testing.T) {
	for _, c := range []struct{ set, file, iterations, want string }{
		{"atsp", "br17.atsp", "2000", "39"},
		{"sop", "ESC07.sop", "200", "2125"},
		{"ssp", "crama-1-s1n004.txt", "20000", "9"},
		{"wtsds", "wt_sds_81.instance", "5000", "383485"},
		{"sdst", "two-machines.txt", "500", "11"},
	} {
		t.Run(c.file, func(t *testing.T) {
			var out strings.Builder
			if err := run([]string{"--set", c.set, "--iterations", c.iterations, filepath.Join("testdata", c.file)}, &out); err != nil {
				t.Fatal(err)
			}
			if words := strings.Fields(out.String()); len(words) != 3 || words[0] != c.file || words[1] != c.want {
				t.Errorf("printed %q, want %s %s and seconds", out.String(), c.file, c.want)
			}
		})
	}
}

// The table names the best value known and the gap to it.
func TestTable(t *testing.T) {
	best := filepath.Join(t.TempDir(), "best.csv")
	if err := os.WriteFile(best, []byte("instance,value,optimal\nbr17.atsp,30,yes\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	if err := run([]string{"--set", "atsp", "--iterations", "2000", "--best", best, "testdata/br17.atsp"}, &out); err != nil {
		t.Fatal(err)
	}
	if words := strings.Fields(out.String()); len(words) != 5 || strings.Join(words[:4], " ") != "br17.atsp 30 39 30.00%" {
		t.Errorf("printed %q", out.String())
	}
}

// A file that is wrong is refused with the line, what is wrong and what would be right.
func TestFaults(t *testing.T) {
	const head = "DIMENSION: 3\nEDGE_WEIGHT_FORMAT: FULL_MATRIX\nEDGE_WEIGHT_SECTION\n"
	const tardy = "Problem Size: 1\nProcess Times:\n5\nWeights:\n1\nDuedates:\n3\nSetup Times:\n"
	for _, c := range []struct{ set, text, want string }{
		{"atsp", "", `line 1: ["DIMENSION" ":"] is missing from here on`},
		{"atsp", "DIMENSION: 1\n", `line 1: the dimension is "1"; it must be a whole number from 2 to 5000`},
		{"atsp", "DIMENSION: 3\nEDGE_WEIGHT_FORMAT: UPPER_ROW\n", `["EDGE_WEIGHT_FORMAT" ":" "FULL_MATRIX"] is missing`},
		{"atsp", head + "0 1 x", `line 4: a weight is "x"; it must be a whole number from 0 to`},
		{"atsp", head + "0 1 2\n3 0", `line 5: the file ends where a weight should stand`},
		{"atsp", head + "0 1 2 3 0 4 5 6 0\n7", `line 5: "7" stands behind the end of the instance; nothing should`},
		{"sop", head + "4\n", `line 4: the dimension again is "4"; it must be a whole number from 3 to 3`},
		{"sop", "DIMENSION: 4\nEDGE_WEIGHT_FORMAT: FULL_MATRIX\nEDGE_WEIGHT_SECTION 4\n0 1 1 1 -1 0 -1 1 -1 -1 0 1 -1 -1 -1 0", "waits for itself by way of its precedences; break the circle"},
		{"wtsds", tardy + "0 0 3\n-1 1 2", `line 10: the set-up [-1 1 2] is wrong: jobs are counted from 0 to 0, -1 is before the first, and each pair stands once`},
		{"wtsds", tardy + "End", `line 9: the set-up from job -1 to job 0 is missing`},
		{"sdst", "1 1\n1\n1 5\n", `line 3: the number of a machine is "1"; it must be a whole number from 0 to 0`},
		{"sdst", "1 1\n1\n0 5\nSSD\n7", `line 5: the set-ups of machine 0 are missing; they begin with M0`},
		{"ssp", "2 1 1 1 2", `line 1: a need is "2"; it must be a whole number from 0 to 1`},
		{"ssp", "1 2 1 1 1", "job 0 needs 2 sets at once on machine 0, whose rack holds 1"},
	} {
		p, err := formats[c.set].read([]byte(c.text))
		if err == nil {
			err = p.Check()
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %q: got %v, want %s", c.set, c.text, err, c.want)
		}
	}
}

func TestRefusesWrongCalls(t *testing.T) {
	for _, c := range []struct{ args, want string }{
		{"--set x", `--set is "x"; it must be atsp, sop, wtsds, sdst or ssp`},
		{"--set atsp --time 0s", "--time must be more than nothing"},
		{"--set atsp testdata/none", "no such file"},
		{"--set atsp --cbc testdata/br17.atsp", "--cbc is for --set sdst"},
	} {
		if err := run(strings.Fields(c.args), &strings.Builder{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %s", c.args, err, c.want)
		}
	}
}

// Whatever stands in a file: a problem that the checks accept can be decoded, or the file is refused.
func FuzzFormats(f *testing.F) {
	for _, name := range []string{"br17.atsp", "ESC07.sop", "crama-1-s1n004.txt", "two-machines.txt"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for set, format := range formats {
			p, err := format.read(data)
			if err != nil || p.Check() != nil || len(p.Jobs) > 30 {
				continue
			}
			order := schedule.Construct(p)
			if _, err := schedule.Evaluate(p, order, schedule.Decode(p, order)); err != nil {
				t.Errorf("%s: %v", set, err)
			}
		}
	})
}
