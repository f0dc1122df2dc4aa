package store

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/plan"
)

// draftsLive is how long a draft is kept that the shop never took over.
const draftsLive = 30 * 24 * time.Hour

// ofDraft is what a draft is called; it is no thing of the shop.
const ofDraft ledger.Kind = "draft"

type laneRecord struct {
	Folder  string            `json:"folder"`
	Jobs    []string          `json:"jobs,omitempty"`
	Choices []jobChoiceRecord `json:"choices,omitempty"`
}

type jobChoiceRecord struct {
	Job string `json:"job"`
	choiceRecord
}

func laneOf(l plan.Lane) laneRecord {
	return laneRecord{l.Folder, l.Jobs, each(l.Choices, func(c plan.Choice) jobChoiceRecord { return jobChoiceRecord{c.Job, choiceOf(c.Choice)} })}
}

func (r laneRecord) value() plan.Lane {
	return plan.Lane{Folder: r.Folder, Jobs: r.Jobs, Choices: each(r.Choices, func(c jobChoiceRecord) plan.Choice { return plan.Choice{Job: c.Job, Choice: c.value()} })}
}

// AddDraft keeps a draft. Drafts that nobody took over within a month go at this occasion.
func (s *Store) AddDraft(ctx context.Context, d ledger.Draft) error {
	body, err := lasting(ofDraft, d.ID, each(d.Order, laneOf))
	if err != nil {
		return err
	}
	return s.inTurn(ctx, func(tx *sql.Tx) error {
		serial, err := nextSerial(ctx, tx)
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, `DELETE FROM draft WHERE taken = 0 AND at_ms < $1`, s.now().Add(-draftsLive).UnixMilli()); err != nil {
			return err
		}
		added, err := touch(ctx, tx, `INSERT INTO draft (id, serial, parent, at_ms, who, how, note, taken, format, body)
			VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) ON CONFLICT (id) DO NOTHING`,
			plain(d.ID), serial, plain(d.Parent), d.At.UnixMilli(), plain(d.Who), plain(d.How), plain(d.Note), d.Taken, bodyFormat, body)
		if err == nil && added == 0 {
			err = taken(ofDraft, d.ID)
		}
		return err
	})
}

const draftColumns = `SELECT id, parent, at_ms, who, how, note, taken, format, body FROM draft `

// Draft reads one draft.
func (s *Store) Draft(ctx context.Context, id string) (ledger.Draft, error) {
	zone, err := s.zone(ctx)
	if err != nil {
		return ledger.Draft{}, err
	}
	d, err := s.readDraft(s.db.QueryRowContext(ctx, draftColumns+`WHERE id = $1`, plain(id)), zone)
	if errors.Is(err, sql.ErrNoRows) {
		return d, noDraft(id)
	}
	return d, err
}

func noDraft(id string) error {
	return fault.Fault{
		Kind: fault.Missing, Code: ledger.CodeNoDraft, Field: "draft", Wrong: fmt.Sprintf("there is no draft %q", id),
		Right: "take one of the list; a draft that was not taken over goes after 30 days",
	}
}

// Drafts lists the newest drafts first, at most so many; 0 is the usual page.
func (s *Store) Drafts(ctx context.Context, most int) ([]ledger.Draft, error) {
	zone, err := s.zone(ctx)
	if err != nil {
		return nil, err
	}
	read := func(from scanner) (ledger.Draft, error) { return s.readDraft(from, zone) }
	return listed(ctx, s.db, read, draftColumns+`ORDER BY serial DESC LIMIT $1`, cmp.Or(max(most, 0), pageUsual))
}

// TakeDraft notes that the shop took a draft over by a change.
func (s *Store) TakeDraft(ctx context.Context, id string, revision int64) error {
	touched, err := s.exec(ctx, `UPDATE draft SET taken = $2 WHERE id = $1`, plain(id), revision)
	if err == nil && touched == 0 {
		err = noDraft(id)
	}
	return err
}

func (s *Store) readDraft(from scanner, zone *time.Location) (d ledger.Draft, err error) {
	var ms int64
	var format int
	var body string
	if err := from.Scan(&d.ID, &d.Parent, &ms, &d.Who, &d.How, &d.Note, &d.Taken, &format, &body); err != nil {
		return d, err
	}
	var lanes []laneRecord
	if err := s.recall(ofDraft, d.ID, format, body, &lanes); err != nil {
		return d, err
	}
	d.At, d.Order = at(ms, zone), each(lanes, laneRecord.value)
	return d, nil
}

// pageUsual is how many are listed when nobody says how many.
const pageUsual = 100

func pageOf(most int) int {
	if most <= 0 {
		return pageUsual
	}
	return min(most, pageMost)
}
