package exchange

import (
	"time"

	"foldwright/internal/ledger"
	"foldwright/internal/units"
)

// Records is how what the floor tells of a make-ready and a run stands in JSON.
func Records() Document[ledger.Record] { return recordDocument }

var recordDocument = documentOf(record[ledger.Record]{what: "a record", fields: []field[ledger.Record]{
	ours(may("id", "the record", words, "", in(func(r *ledger.Record) *string { return &r.ID }))),
	ours(may("version", "which version of it this is", version, 0, in(func(r *ledger.Record) *int64 { return &r.Version }))),
	ours(may("who", "who wrote it down", words, "", in(func(r *ledger.Record) *string { return &r.Who }))),
	ours(maybeInstant("at", "when it was written down", func(r *ledger.Record) *time.Time { return &r.At })),
	need("job", "the job", naming(ledger.OfJob), in(func(r *ledger.Record) *string { return &r.Job })),
	need("folder", "the folder", naming(ledger.OfFolder), in(func(r *ledger.Record) *string { return &r.Folder })),
	need("start", "when the make-ready began", instant, in(func(r *ledger.Record) *time.Time { return &r.Start })),
	maybeInstant("good", "when the first good sheet came, with which the run begins", func(r *ledger.Record) *time.Time { return &r.Good }),
	maybeInstant("end", "when the run ended", func(r *ledger.Record) *time.Time { return &r.End }),
	may("sheets", "how many sheets were folded", count, 0, in(func(r *ledger.Record) *int { return &r.Sheets })),
	many("plates", "where the stops really stood", list(asRunFields.shape(), false), func(r *ledger.Record) *[]ledger.AsRun { return &r.Plates }),
	many("tools", "where the tools really stood", list(asRunFields.shape(), false), func(r *ledger.Record) *[]ledger.AsRun { return &r.Tools }),
	may("planned_min", "the make-ready as planned, in minutes", wholeSeconds, 0, in(func(r *ledger.Record) *time.Duration { return &r.Planned })),
	may("disturbed", "why this one should not count as usual; without it, it counts", words, "", in(func(r *ledger.Record) *string { return &r.Disturbed })),
	may("note", "what else there is to say", words, "", in(func(r *ledger.Record) *string { return &r.Note })),
}})

var asRunFields = record[ledger.AsRun]{what: "a place as run", oneLine: true, fields: []field[ledger.AsRun]{
	need("where", "what it is, such as unit 1 plate 2, or 1A perforate 12 tpi", words, in(func(a *ledger.AsRun) *string { return &a.Where })),
	need("set_mm", "where it was to stand", millimetres, in(func(a *ledger.AsRun) *units.Length { return &a.Set })),
	need("was_mm", "where it really stood", millimetres, in(func(a *ledger.AsRun) *units.Length { return &a.Was })),
}}
