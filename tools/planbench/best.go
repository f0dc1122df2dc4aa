package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
)

// readBest reads the best values known: a heading, then lines that begin with the file's name and the value.
func readBest(name string) (map[string]int64, error) {
	best := map[string]int64{}
	if name == "" {
		return best, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	for i, row := range rows {
		if i == 0 {
			continue
		}
		if len(row) < 2 {
			return nil, fmt.Errorf("%s: row %d has no value; it must begin with a name and a value", name, i+1)
		}
		if best[row[0]], err = strconv.ParseInt(row[1], 10, 64); err != nil {
			return nil, fmt.Errorf("%s: row %d: %q is not a whole number", name, i+1, row[1])
		}
	}
	return best, nil
}
