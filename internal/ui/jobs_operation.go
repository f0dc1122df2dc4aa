package ui

import (
	"net/url"
	"strings"
)

// operationTyped is what the helper beside the operations writes of what was chosen there: the text that a docket holds. What
// is missing in it the docket's own check says.
func operationTyped(v url.Values) string {
	get := func(name string) string { return strings.TrimSpace(v.Get("op-" + name)) }
	kind := get("kind")
	if kind == "trim" {
		return strings.Join([]string{"trim", get("by"), "at the", get("edge")}, " ")
	}
	parts := []string{kind}
	if get("on") == "line" {
		parts = append(parts, "at", get("axis"), get("at"))
	} else {
		parts = append(parts, "fold", get("fold"))
	}
	if strip := get("strip"); strip != "" && kind == "slit" {
		parts = append(parts, "strip", strip)
	}
	if ups := get("ups"); ups != "" && kind == "slit" && get("on") == "line" {
		parts = append(parts, ups)
	}
	if spec := get("spec"); spec != "" && kind != "slit" {
		parts = append(parts, "with", spec)
	}
	return strings.Join(parts, " ")
}
