package store

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
	"time"

	"foldwright/internal/calendar"
	"foldwright/internal/fault"
	"foldwright/internal/job"
	"foldwright/internal/ledger"
	"foldwright/internal/shop"
)

// state is a snapshot with the rows that it was made of.
type state struct {
	*ledger.Snapshot
	rows rows
}

// unseen is the state before anything was read.
func unseen() *state { return &state{Snapshot: new(ledger.Snapshot)} }

// rows are the things by kind, each kind in its order.
type rows map[ledger.Kind][]row

// row is a thing as it is kept.
type row struct {
	id       string
	kind     ledger.Kind
	name     string
	position int64 // ascending within the kind; 0: not placed yet
	version  int64 // 0: changed, and not written yet
	format   int
	body     string
	value    any // what the body says
}

func (r row) tag() ledger.Tag {
	return ledger.Tag{Kind: r.kind, ID: r.id, Name: r.name, Version: r.version}
}

// Snapshot reads the shop as it is now.
func (s *Store) Snapshot(ctx context.Context) (*ledger.Snapshot, error) {
	now, err := s.present(ctx)
	if err != nil {
		return nil, err
	}
	return now.Snapshot, nil
}

func (s *Store) present(ctx context.Context) (*state, error) {
	last := s.seen()
	revision, err := revisionOf(ctx, s.db)
	if err != nil || revision == last.Revision {
		return last, err
	}
	tx, err := s.db.BeginTx(ctx, asOfNow)
	if err != nil {
		return nil, err
	}
	defer tx.Rollback()
	if revision, err = revisionOf(ctx, tx); err != nil {
		return nil, err
	}
	read, err := s.load(ctx, tx, last)
	if err != nil {
		return nil, err
	}
	now := last.at(revision)
	if !read.same(last.rows) || last.Revision == 0 {
		now = s.assemble(read, revision, last)
	}
	s.saw(now)
	return now, nil
}

// at is the same shop at a later revision, which did not touch it.
func (s *state) at(revision int64) *state {
	now := *s.Snapshot
	now.Revision = revision
	return &state{&now, s.rows}
}

// same says whether two readings are of the same versions in the same places.
func (r rows) same(other rows) bool {
	for _, k := range keepings {
		if !slices.EqualFunc(r[k.kind], other[k.kind], func(a, b row) bool { return a.id == b.id && a.version == b.version && a.position == b.position }) {
			return false
		}
	}
	return true
}

// asOfNow makes all reading of a transaction see one moment. SQLite's does in any case.
var asOfNow = &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true}

// asker is a database or a transaction.
type asker interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func revisionOf(ctx context.Context, a asker) (revision int64, err error) {
	err = a.QueryRowContext(ctx, `SELECT revision FROM counter WHERE one = 1`).Scan(&revision)
	return revision, err
}

// load reads the things; the bodies only of those that changed since the known snapshot.
func (s *Store) load(ctx context.Context, a asker, known *state) (rows, error) {
	found, err := a.QueryContext(ctx, `SELECT id, kind, name, position, revision, format, CASE WHEN revision > $1 THEN body ELSE '' END
		FROM thing ORDER BY kind, position, id`, known.Revision)
	if err != nil {
		return nil, err
	}
	defer found.Close()
	old := known.rows.byID()
	read := rows{}
	for found.Next() {
		var r row
		if err := found.Scan(&r.id, &r.kind, &r.name, &r.position, &r.version, &r.format, &r.body); err != nil {
			return nil, err
		}
		if r.version <= known.Revision {
			r.body, r.value = old[r.id].body, old[r.id].value
		} else if r.value, err = s.valueOf(r); err != nil {
			return nil, err
		}
		read[r.kind] = append(read[r.kind], r)
	}
	return read, found.Err()
}

func (s *Store) valueOf(r row) (any, error) {
	k, known := keepingOf(r.kind)
	if !known || r.format > bodyFormat {
		return nil, s.newer(r.kind, r.name)
	}
	value, err := k.read([]byte(r.body))
	if err != nil {
		return nil, s.damaged(fmt.Sprintf("%s cannot be read: %v", called(r.kind, r.name), err))
	}
	return value, nil
}

func (s *Store) damaged(what string) error {
	return fault.Fault{Kind: fault.Input, Code: CodeDamaged, File: s.where, Wrong: what, Right: "restore a backup, and look for what else wrote to the database"}
}

// tags are the tags of all things.
func (r rows) tags() map[ledger.Kind][]ledger.Tag {
	all := map[ledger.Kind][]ledger.Tag{}
	for kind, list := range r {
		for _, one := range list {
			all[kind] = append(all[kind], one.tag())
		}
	}
	return all
}

func (r rows) byID() map[string]row {
	all := map[string]row{}
	for _, k := range keepings {
		for _, one := range r[k.kind] {
			all[one.id] = one
		}
	}
	return all
}

// assemble makes a shop of the rows and holds it to its rules. What stands as it is in a sound shop that is known already is not
// looked at twice by itself, only together with all the rest.
func (s *Store) assemble(r rows, revision int64, known *state) *state {
	now := &state{&ledger.Snapshot{Revision: revision, Things: r.tags()}, r}
	if len(r[ledger.OfShop]) == 0 {
		return now
	}
	now.Shop = new(shop.Shop)
	for _, k := range keepings {
		for _, one := range r[k.kind] {
			k.add(now.Shop, one.value)
		}
	}
	byTheClockOf(now.Shop)
	now.Faults = s.check(now.Shop, r.soundSince(known, now.Shop))
	return now
}

// soundSince tells of the jobs of a shop that stand as they are in a sound shop that is known.
func (r rows) soundSince(known *state, now *shop.Shop) func(*job.Job) bool {
	sound := map[*job.Job]bool{}
	if known.Shop != nil && len(known.Faults) == 0 {
		old := map[string]string{}
		for _, one := range known.rows[ledger.OfJob] {
			old[one.id] = one.body
		}
		for i, one := range r[ledger.OfJob] {
			sound[&now.Jobs[i]] = one.id != "" && old[one.id] == one.body
		}
	}
	return func(j *job.Job) bool { return sound[j] }
}

// byTheClockOf shows all moments by the clock of the shop; a calendar without one of its own goes by it too. The lists of
// jobs and calendars are the shop's own, made just now.
func byTheClockOf(s *shop.Shop) {
	if s.Zone == nil {
		return
	}
	show := func(t *time.Time) {
		if !t.IsZero() {
			*t = t.In(s.Zone)
		}
	}
	show(&s.Now)
	for _, list := range [][]job.Job{s.Jobs, s.Done} {
		for i := range list {
			show(&list[i].Release)
			show(&list[i].Due)
		}
	}
	for i := range s.Calendars {
		own(&s.Calendars[i], s.Zone)
	}
}

func own(c *calendar.Calendar, zone *time.Location) {
	if c.Zone == nil {
		c.Zone = zone
	}
}
