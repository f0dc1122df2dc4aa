package store

import (
	"context"
	"time"

	"foldwright/internal/ledger"
	"foldwright/internal/units"
)

// pageMost is the longest page, of 500, and one more that tells whether there is another: the trail of a year does not fit
// into one answer.
const pageMost = 501

// History reads the audit trail, newest change first.
func (s *Store) History(ctx context.Context, p ledger.Page) ([]ledger.Change, error) {
	now, err := s.Snapshot(ctx)
	if err != nil {
		return nil, err
	}
	return history(ctx, s.db, p, readerOf(now))
}

// readerOf reads as the people of a shop do.
func readerOf(now *ledger.Snapshot) reader {
	return reader{clockOf(now), now.Shop != nil && now.Shop.Inch}
}

// history joins changes with their things; what a thing was before stands with its last change before that.
func history(ctx context.Context, a asker, p ledger.Page, r reader) ([]ledger.Change, error) {
	if p.Before <= 0 {
		p.Before = 1<<63 - 1
	}
	if p.Limit <= 0 || p.Limit > pageMost {
		p.Limit = pageMost
	}
	if plain(p.Thing) != p.Thing { // nothing has an id with such signs, and PostgreSQL would not even look
		return nil, nil
	}
	found, err := a.QueryContext(ctx, `
		SELECT c.revision, c.at_ms, c.who, c.what, COALESCE(t.kind, ''), COALESCE(t.thing, ''), COALESCE(t.name, ''), COALESCE(t.deed, ''), COALESCE(t.body, ''),
			COALESCE((SELECT o.body FROM change_thing o WHERE o.thing = t.thing AND o.revision < t.revision ORDER BY o.revision DESC LIMIT 1), '')
		FROM (SELECT revision, at_ms, who, what FROM change
			WHERE revision < $1 AND (CAST($2 AS TEXT) = '' OR EXISTS (SELECT 1 FROM change_thing x WHERE x.revision = change.revision AND x.thing = $2))
				AND (CAST($4 AS INTEGER) = 0 OR NOT EXISTS (SELECT 1 FROM change_thing y WHERE y.revision = change.revision AND y.kind IN ('account', 'token', 'invitation')))
			ORDER BY revision DESC LIMIT $3) c
		LEFT JOIN change_thing t ON t.revision = c.revision AND (CAST($2 AS TEXT) = '' OR t.thing = $2)
		ORDER BY c.revision DESC, t.place`, p.Before, p.Thing, p.Limit, digit(p.Shop))
	if err != nil {
		return nil, err
	}
	defer found.Close()
	var list []ledger.Change
	for found.Next() {
		var c ledger.Change
		var at int64
		var t ledger.Changed
		var body, before string
		if err := found.Scan(&c.Revision, &at, &c.Who, &c.What, &t.Kind, &t.ID, &t.Name, &t.Deed, &body, &before); err != nil {
			return nil, err
		}
		if len(list) == 0 || list[len(list)-1].Revision != c.Revision {
			c.At = time.UnixMilli(at).In(r.zone)
			list = append(list, c)
		}
		if t.ID != "" {
			t.Fields = r.differing(before, body)
			last := &list[len(list)-1]
			last.Things = append(last.Things, t)
		}
	}
	return list, found.Err()
}

// reader shows what stands in bodies as people of the shop read it.
type reader struct {
	zone *time.Location
	inch bool
}

func (r reader) length(nm int64) string { return units.Length(nm).Format(r.inch) }
