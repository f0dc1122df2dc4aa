package main

import (
	"encoding/json"
	"fmt"
)

// json prints an answer as the outside relies on it: indented, one value, a new line at the end.
func (s streams) json(v any) error {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return fmt.Errorf("writing JSON: %w", err)
	}
	_, err = s.out.Write(append(text, '\n'))
	return err
}
