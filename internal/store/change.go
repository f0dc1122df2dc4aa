package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// Change applies all edits in one transaction, or none, and returns the shop after it. When it returns without error the
// change is on the disk.
func (s *Store) Change(ctx context.Context, by ledger.By, edits ...ledger.Edit) (*ledger.Snapshot, error) {
	return s.Update(ctx, by, func(*ledger.Snapshot) ([]ledger.Edit, error) { return edits, nil })
}

// Update is Change with edits that depend on the shop as it is at that moment. Nobody else writes meanwhile, so decide is
// quick and does not write itself. An error of it ends the change and comes back as it is.
func (s *Store) Update(ctx context.Context, by ledger.By, decide func(now *ledger.Snapshot) ([]ledger.Edit, error)) (*ledger.Snapshot, error) {
	return s.write(ctx, by, func(now *state) (rows, error) {
		if now.Shop == nil {
			return nil, s.noShop()
		}
		edits, err := decide(now.Snapshot)
		if err != nil {
			return nil, err
		}
		return now.rows.with(edits)
	})
}

// Replace makes s the whole shop, in one transaction. Things that stay as they are keep id and version, so that the audit
// trail shows what is different and nothing else.
func (s *Store) Replace(ctx context.Context, by ledger.By, whole *shop.Shop) (*ledger.Snapshot, error) {
	return s.write(ctx, by, func(now *state) (rows, error) { return now.rows.replacedBy(whole) })
}

// Fill is Replace for a store that has no shop yet; it never takes the place of one.
func (s *Store) Fill(ctx context.Context, by ledger.By, whole *shop.Shop) (*ledger.Snapshot, error) {
	return s.write(ctx, by, func(now *state) (rows, error) {
		if now.Shop != nil {
			return nil, Occupied(s.where)
		}
		return now.rows.replacedBy(whole)
	})
}

// Occupied is the fault of putting a shop where there is one.
func Occupied(where string) fault.Fault {
	return fault.Fault{Kind: fault.Conflict, Code: CodeOccupied, File: where, Wrong: "there is a shop already", Right: "add --replace to put the new one in its place"}
}

// write is the one way in which anything changes: take the turn, number the change, see what is there, decide, check the
// shop that comes of it, write what is different.
func (s *Store) write(ctx context.Context, by ledger.By, decide func(*state) (rows, error)) (*ledger.Snapshot, error) {
	back, err := s.take(ctx)
	if err != nil {
		return nil, err
	}
	defer back()
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return nil, err
	}
	defer tx.Rollback()
	now, revision, err := s.begin(ctx, tx)
	if err != nil {
		return nil, err
	}
	next, err := decide(now)
	if err != nil {
		return nil, s.told(ctx, tx, err)
	}
	steps := next.numbered(now.rows, revision)
	if len(steps) == 0 {
		return now.Snapshot, nil
	}
	after := s.assemble(next, revision, now)
	if len(after.Faults) > 0 {
		return nil, after.Faults
	}
	if err := s.record(ctx, tx, by, revision, steps); err != nil {
		return nil, err
	}
	if err := tx.Commit(); err != nil {
		return nil, err
	}
	s.saw(after)
	return after.Snapshot, nil
}

// begin numbers the change, which keeps all other writers out until the end of it, and gives the shop before it.
func (s *Store) begin(ctx context.Context, tx *sql.Tx) (now *state, revision int64, err error) {
	if revision, err = nextRevision(ctx, tx); err != nil {
		return nil, 0, err
	}
	now = s.seen()
	if now.Revision == revision-1 {
		return now, revision, nil
	}
	read, err := s.load(ctx, tx, now)
	if err != nil {
		return nil, 0, err
	}
	return s.assemble(read, revision-1, now), revision, nil
}

// told puts a stale edit into words; any other error stays as it is.
func (s *Store) told(ctx context.Context, tx *sql.Tx, err error) error {
	var old stale
	if !errors.As(err, &old) {
		return err
	}
	return s.staleFault(ctx, tx, old.tag)
}

// written is one thing of a change: before without id was not there, after without id is there no more.
type written struct {
	deed          ledger.Deed
	before, after row
	stood         string // where it stood, when it left that place: see [atEnd]
}

// atEnd says of a thing that it stood at the end of its kind; else what it stood ahead of is told by an id.
const atEnd = "."

// numbered gives ids, versions and positions to what is new, and lists what differs from before: things that went first,
// then all others kind by kind. Rows whose position alone was settled anew are listed without a deed.
func (r rows) numbered(before rows, revision int64) []written {
	was := before.byID()
	var gone, rest []written
	news := 0
	for _, k := range keepings {
		list := r[k.kind]
		left := leftTheirPlaces(list)
		settle(list)
		stays := map[string]bool{}
		for i := range list {
			if list[i].id == "" {
				news++
				list[i].id = fmt.Sprintf("%d-%d", revision, news)
			}
			stays[list[i].id] = true
			if w, differs := happened(was[list[i].id], list[i]); differs {
				if w.deed != "" {
					list[i].version, w.after.version = revision, revision
				}
				if left[list[i].id] {
					w.stood = standing(before[k.kind], list[i].id)
				}
				rest = append(rest, w)
			}
		}
		for _, o := range before[k.kind] {
			if !stays[o.id] {
				gone = append(gone, written{deed: ledger.Removed, before: o, stood: standing(before[k.kind], o.id)})
			}
		}
	}
	return append(gone, rest...)
}

// leftTheirPlaces are the things that are to get a new position.
func leftTheirPlaces(list []row) map[string]bool {
	left := map[string]bool{}
	for _, r := range list {
		if r.position == 0 {
			left[r.id] = true
		}
	}
	return left
}

// standing tells what a thing of a list stands ahead of; nothing of what is not in it.
func standing(list []row, id string) string {
	switch i := indexOf(list, id); {
	case i < 0:
		return ""
	case i+1 == len(list):
		return atEnd
	default:
		return list[i+1].id
	}
}

// happened tells what became of a thing.
func happened(before, after row) (w written, differs bool) {
	w = written{before: before, after: after}
	switch {
	case before.id == "":
		w.deed = ledger.Added
	case before.body != after.body || before.format != after.format:
		w.deed = ledger.Altered
	case after.version == 0:
		w.deed = ledger.Moved
	}
	return w, w.deed != "" || before.position != after.position
}

// record writes a change with its trail.
func (s *Store) record(ctx context.Context, tx *sql.Tx, by ledger.By, revision int64, steps []written) error {
	if err := s.writeChange(ctx, tx, by, revision); err != nil {
		return err
	}
	for i, w := range steps {
		if err := writeThing(ctx, tx, w); err != nil {
			return err
		}
		if err := writeTrail(ctx, tx, revision, i+1, w); err != nil {
			return err
		}
	}
	return nil
}

func (s *Store) writeChange(ctx context.Context, tx *sql.Tx, by ledger.By, revision int64) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO change (revision, at_ms, who, what) VALUES ($1, $2, $3, $4)`, revision, s.now().UnixMilli(), plain(by.Who), plain(by.What))
	return err
}

func writeThing(ctx context.Context, tx *sql.Tx, w written) (err error) {
	r := w.after
	switch w.deed {
	case ledger.Removed:
		_, err = tx.ExecContext(ctx, `DELETE FROM thing WHERE id = $1`, w.before.id)
	case ledger.Added:
		_, err = tx.ExecContext(ctx, `INSERT INTO thing (id, kind, name, position, revision, format, body) VALUES ($1, $2, $3, $4, $5, $6, $7)`,
			r.id, string(r.kind), r.name, r.position, r.version, r.format, r.body)
	default:
		_, err = tx.ExecContext(ctx, `UPDATE thing SET name = $2, position = $3, revision = $4, format = $5, body = $6 WHERE id = $1`,
			r.id, r.name, r.position, r.version, r.format, r.body)
	}
	return err
}

func writeTrail(ctx context.Context, tx *sql.Tx, revision int64, place int, w written) error {
	if w.deed == "" {
		return nil
	}
	r := w.after
	if w.deed == ledger.Removed {
		r = w.before
		r.body = ""
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO change_thing (revision, place, thing, kind, name, deed, format, body, stood) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
		revision, place, r.id, string(r.kind), r.name, string(w.deed), r.format, r.body, w.stood)
	return err
}

// plain keeps what no database takes as text out of the trail.
func plain(text string) string {
	return strings.ToValidUTF8(strings.ReplaceAll(text, "\x00", ""), "�")
}
