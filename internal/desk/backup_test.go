package desk_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"strings"
	"testing"

	"foldwright/internal/access"
	"foldwright/internal/desk"
	"foldwright/internal/exchange"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/store"
)

// vaulted is a desk whose database can be backed up. No file may be left of that.
func vaulted(t *testing.T) (d *desk.Desk, admin context.Context) {
	t.Helper()
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	t.Cleanup(func() {
		if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
			t.Errorf("left behind: %v, %v", left, err)
		}
	})
	d = kept(t)
	d.Vault = d.Books.(*store.Store)
	return d, as(t, access.Admin)
}

func TestBackupAndBack(t *testing.T) {
	d, admin := vaulted(t)
	before, err := d.Shop(admin)
	if err != nil {
		t.Fatal(err)
	}
	file := exchange.WriteShop(before)
	var copied bytes.Buffer
	if err := d.Backup(admin, &copied); err != nil {
		t.Fatal(err)
	}
	first, err := d.Things(admin, ledger.OfJob)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Remove(admin, first[len(first)-1].Tag); err != nil {
		t.Fatal(err)
	}
	now, err := d.Restore(admin, bytes.NewReader(copied.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if diff := string(exchange.WriteShop(now.Shop)); diff != string(file) {
		t.Error("what came back is another shop")
	}
	trail, err := d.History(admin, ledger.Page{Limit: 1})
	if err != nil || trail[0].Who != "ada" || trail[0].What != "took a backup back" {
		t.Errorf("the trail says %+v, %v", trail, err)
	}
}

func TestWhoMayBackUp(t *testing.T) {
	d, _ := vaulted(t)
	for _, role := range append(access.Roles(), access.Nobody) {
		_, back := d.Restore(as(t, role), strings.NewReader("no database"))
		for what, err := range map[string]error{"backup": d.Backup(as(t, role), io.Discard), "restore": back} {
			all := fault.All(err)
			if denied := len(all) > 0 && all[0].Code == access.CodeDenied; denied != (role != access.Admin) {
				t.Errorf("%s by %s: %v", what, role, err)
			}
		}
	}
}

// What is no sound backup changes nothing, and says so without names that only this machine knows.
func TestBackupsThatAreNone(t *testing.T) {
	d, admin := vaulted(t)
	var whole bytes.Buffer
	if err := d.Backup(admin, &whole); err != nil {
		t.Fatal(err)
	}
	torn := bytes.Clone(whole.Bytes())
	copy(torn[len(torn)/2:], bytes.Repeat([]byte{0xA5}, 4096))
	was, err := d.Snapshot(admin)
	if err != nil {
		t.Fatal(err)
	}
	for what, data := range map[string][]byte{"nothing": nil, "a text": []byte("shop: small\n"), "half of one": whole.Bytes()[:whole.Len()/2], "a torn one": torn, "only its head": whole.Bytes()[:16]} {
		_, err := d.Restore(admin, bytes.NewReader(data))
		if all := fault.All(err); len(all) == 0 || all[0].File != "the backup" || strings.Contains(err.Error(), "backup.db") {
			t.Errorf("%s: %v", what, err)
		}
		if now, err := d.Snapshot(admin); err != nil || now.Revision != was.Revision {
			t.Errorf("%s changed something", what)
		}
	}
	if _, err := d.Restore(admin, io.MultiReader(bytes.NewReader(whole.Bytes()[:100]), broken{})); !errors.Is(err, errBroken) {
		t.Errorf("an upload that breaks off: %v", err)
	}
}

var errBroken = errors.New("the line broke")

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errBroken }

func TestNoVault(t *testing.T) {
	d := kept(t)
	if all := fault.All(d.Backup(as(t, access.Admin), io.Discard)); len(all) != 1 || all[0].Code != desk.CodeNoVault {
		t.Errorf("got %v", all)
	}
}
