package api

import (
	"reflect"

	"foldwright/internal/exchange"
)

// answerSchemas are those of answers that have one shape or another.
func (a *API) answerSchemas() map[string]any {
	of := func(v any) map[string]any {
		return plainOf(a.huma.OpenAPI().Components.Schemas.Schema(reflect.TypeOf(v), true, ""))
	}
	return map[string]any{
		"SettingsAnswers": map[string]any{"oneOf": []any{of(exchange.SettingsAnswer{}), of([]exchange.SettingsAnswer{})}},
		"RackAnswers":     map[string]any{"oneOf": []any{of(exchange.RackAnswer{}), of([]exchange.MatchesDocument{})}},
	}
}

// tags group the operations, in the order in which they are shown.
var tags = [][2]string{
	{"jobs", "Dockets: what is to be folded, settings on every folder, pins, repeats."},
	{"floor", "What the floor reports: a job runs, a job is finished."},
	{"plans", "The day: drafts, moves, searches, the order given."},
	{"rack", "Sets of shafts: what serves, build, strip, move, retire."},
	{"sets", "Sets of shafts as things that are kept."},
	{"prints", "Cards, labels and drawings."},
	{"records", "What make-readies and runs really were."},
	{"folders", "The machines."},
	{"present", "What stands on the folders now."},
	{"tools", "Tools: the room that they take, how many lie loose."},
	{"classes", "Classes of shafts."},
	{"bench", "Who works on the bench."},
	{"calendars", "Working hours."},
	{"stocks", "Papers."},
	{"done", "Finished jobs."},
	{"shop", "What the shop has one of: itself, standard minutes, prices, rules of the house; import and export."},
	{"changes", "The audit trail."},
	{"people", "Accounts, tokens, sessions."},
}
