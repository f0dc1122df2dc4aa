package storetest

import (
	"path/filepath"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
)

// toStepOne makes a database what the first foldwright with a database would have left.
const toStepOne = `
	DROP TABLE draft; DROP TABLE floor_record; DROP TABLE floor_record_past; DROP TABLE account; DROP TABLE token;
	DROP TABLE invitation; DROP TABLE session; DROP TABLE request_key;
	ALTER TABLE counter DROP COLUMN serial; ALTER TABLE change_thing DROP COLUMN stood;
	DELETE FROM schema_step WHERE number > 1`

// upgrades opens a database of the first step: all of it is there, and what came later works on it.
func upgrades(b *bench) {
	s, _ := b.filled()
	first, last := b.shop.Jobs[0].Name, b.shop.Jobs[len(b.shop.Jobs)-1].Name
	moved := b.change(s, "ada", ledger.Move(b.tag(b.snapshot(s), ledger.OfJob, first), ledger.Tag{}))
	was := b.change(s, "ada", ledger.Remove(b.tag(moved, ledger.OfJob, last)))
	trail := b.history(s, ledger.Page{})
	b.forget(toStepOne)

	now := b.open()
	b.same(was.Shop, b.snapshot(now).Shop)
	b.same(trail, b.history(now, ledger.Page{}))
	b.ok(now.Verify(b.ctx))
	_, err := b.undo(now, moved.Revision) // the trail of then does not tell where the job stood
	b.faultOf(err, ledger.CodeNotUndoable)
	b.addDraft(now, b.aDraft("d"))
	b.addRecord(now, b.aRecord("r", noon))
	b.ok(now.AddAccount(b.as("ada"), access.Account{Name: "ada", Role: access.Admin}))
	file := filepath.Join(b.TempDir(), "saved.db")
	b.ok(now.Backup(b.ctx, file))
	_, err = now.Restore(b.ctx, ledger.By{Who: "ada"}, file)
	b.ok(err)
}
