package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
)

// table is a table with its columns, in an order in which rows can be put back.
type table struct {
	name, columns, order string
	people               bool // says who can come in
}

// tables are what a backup holds.
var tables = []table{
	{name: "change", columns: "revision, at_ms, who, what", order: "revision"},
	{name: "change_thing", columns: "revision, place, thing, kind, name, deed, format, body, stood", order: "revision, place"},
	{name: "thing", columns: "id, kind, name, position, revision, format, body", order: "id"},
	{name: "draft", columns: "id, serial, parent, at_ms, who, how, note, taken, format, body", order: "serial"},
	{name: "floor_record", columns: "id, version, job, folder, start_ms, format, body", order: "id"},
	{name: "floor_record_past", columns: "id, version, format, body", order: "id, version"},
	{name: "account", columns: "name, role, hash, lang, inch, since_ms, ended, chosen, version", order: "name", people: true},
	{name: "token", columns: "id, name, account, role, digest, since_ms, until_ms, used_ms", order: "id", people: true},
}

// passing are the tables that no backup holds and that a restore empties. Brought back, a session would let somebody in who
// logged out, an invitation would serve twice, and a key would say of a write that it was done although the restore undid it.
var passing = []table{{name: "session"}, {name: "invitation"}, {name: "request_key"}}

// emptyTables empties tables, the last first.
func emptyTables(ctx context.Context, tx *sql.Tx, list []table) error {
	for i := len(list) - 1; i >= 0; i-- {
		if _, err := tx.ExecContext(ctx, "DELETE FROM "+list[i].name); err != nil {
			return err
		}
	}
	return nil
}

func copyTables(ctx context.Context, list []table, from, into *sql.Tx) error {
	for _, t := range list {
		if err := t.copy(ctx, from, into); err != nil {
			return fmt.Errorf("copying %s: %w", t.name, err)
		}
	}
	return nil
}

func (t table) copy(ctx context.Context, from, into *sql.Tx) error {
	found, err := from.QueryContext(ctx, "SELECT "+t.columns+" FROM "+t.name+" ORDER BY "+t.order)
	if err != nil {
		return err
	}
	defer found.Close()
	put, err := into.PrepareContext(ctx, "INSERT INTO "+t.name+" ("+t.columns+") VALUES ("+places(strings.Count(t.columns, ",")+1)+")")
	if err != nil {
		return err
	}
	defer put.Close()
	values := make([]any, strings.Count(t.columns, ",")+1)
	spots := make([]any, len(values))
	for i := range values {
		spots[i] = &values[i]
	}
	for found.Next() {
		if err := found.Scan(spots...); err != nil {
			return err
		}
		if _, err := put.ExecContext(ctx, values...); err != nil {
			return err
		}
	}
	return found.Err()
}

// places gives $1, $2, … $n.
func places(n int) string {
	list := make([]string, n)
	for i := range list {
		list[i] = fmt.Sprintf("$%d", i+1)
	}
	return strings.Join(list, ", ")
}

// counters are the two numbers that a store counts up: of changes, and of what is written down beside the shop.
type counters struct{ revision, serial int64 }

func countersOf(ctx context.Context, a asker) (c counters, err error) {
	err = a.QueryRowContext(ctx, `SELECT revision, serial FROM counter WHERE one = 1`).Scan(&c.revision, &c.serial)
	return c, err
}

func (c counters) set(ctx context.Context, tx *sql.Tx) error {
	_, err := tx.ExecContext(ctx, `UPDATE counter SET revision = $1, serial = $2 WHERE one = 1`, c.revision, c.serial)
	return err
}

// stamp sets the numbers and has everything count as written anew under them.
func (c counters) stamp(ctx context.Context, tx *sql.Tx) error {
	if err := c.set(ctx, tx); err != nil {
		return err
	}
	for _, part := range []struct {
		statement string
		number    int64
	}{
		{`UPDATE thing SET revision = $1`, c.revision},
		{`UPDATE account SET version = $1`, c.revision},
		{`UPDATE floor_record SET version = $1`, c.serial},
		{`INSERT INTO floor_record_past (id, version, format, body) SELECT id, CAST($1 AS BIGINT), format, body FROM floor_record`, c.serial},
	} {
		if _, err := tx.ExecContext(ctx, part.statement, part.number); err != nil {
			return err
		}
	}
	return nil
}
