package desk

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
)

// CodeNoVault is the code of a backup where nothing is kept that could be backed up.
const CodeNoVault fault.Code = "no-backup"

// Vault is a store that can be copied into one file and taken back from it.
type Vault interface {
	// Backup copies all there is into a new file, and checks the copy.
	Backup(ctx context.Context, path string) error
	// Restore checks a backup and puts it in the place of all there is.
	Restore(ctx context.Context, by ledger.By, path string) (*ledger.Snapshot, error)
}

// Backup writes a copy of the whole database, as it is at this moment, others going on meanwhile. Nothing is written before the copy has been
// checked.
func (d *Desk) Backup(ctx context.Context, w io.Writer) error {
	if err := access.From(ctx).May(access.Rule); err != nil {
		return err
	}
	return d.inVault(func(path string) (err error) {
		if err := d.Vault.Backup(ctx, path); err != nil {
			return err
		}
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, f.Close()) }()
		_, err = io.Copy(w, f)
		return err
	})
}

// Restore puts a backup in the place of all there is, accounts and audit trail included. It is checked first; one that is not sound
// changes nothing.
func (d *Desk) Restore(ctx context.Context, backup io.Reader) (*ledger.Snapshot, error) {
	who := access.From(ctx)
	if err := who.May(access.Rule); err != nil {
		return nil, err
	}
	var now *ledger.Snapshot
	err := d.inVault(func(path string) (err error) {
		if err := writeFile(path, backup); err != nil {
			return err
		}
		now, err = d.Vault.Restore(ctx, ledger.By{Who: who.String(), What: "took a backup back"}, path)
		return err
	})
	d.forgetTokens() // others let in now
	return now, namedBackup(err)
}

// inVault does something with a file that is gone afterwards.
func (d *Desk) inVault(do func(path string) error) (err error) {
	if d.Vault == nil {
		return fault.Fault{Kind: fault.Conflict, Code: CodeNoVault, Wrong: "the shop is kept in no database", Right: "import it into one"}
	}
	dir, err := os.MkdirTemp("", "foldwright-backup-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	return do(filepath.Join(dir, "backup.db"))
}

func writeFile(path string, from io.Reader) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	_, err = io.Copy(f, from)
	return err
}

// namedBackup takes our own name of the file out of the faults: nobody else knows it.
func namedBackup(err error) error {
	all := slices.Clone(fault.All(err))
	if len(all) == 0 {
		return err
	}
	for i := range all {
		all[i].File = "the backup"
	}
	return all
}
