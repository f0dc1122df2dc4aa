package storetest

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"foldwright/internal/ledger"
	"foldwright/internal/shop"
	"foldwright/internal/store"
)

func trail(b *bench) {
	s, now := b.filled()
	f := b.aFolder(0)
	f.Units[0].Gap = 71_500_000
	f.Units[0].Speed = 120_000_000_000
	tag := b.tag(now, ledger.OfFolder, f.Name)
	now, err := s.Change(b.ctx, ledger.By{Who: "ben", What: "slower, for thin stock"}, ledger.Put(tag, f))
	if err != nil {
		b.Fatal(err)
	}
	job := b.tag(now, ledger.OfJob, b.shop.Jobs[len(b.shop.Jobs)-1].Name)
	b.change(s, "ada", ledger.Move(job, b.tag(now, ledger.OfJob, b.shop.Jobs[0].Name)))
	b.change(s, "ada", ledger.Remove(b.tag(b.snapshot(s), ledger.OfJob, job.Name)))

	all := b.history(s, ledger.Page{})
	if len(all) != 4 || all[3].What != "taken in" || len(all[3].Things) < len(b.shop.Jobs)+len(b.shop.Folders) {
		b.Fatalf("the trail is not what was done: %d changes", len(all))
	}
	if all[0].Things[0].Deed != "removed" || all[1].Things[0].Deed != "moved" || all[0].Who != "ada" {
		b.Errorf("the trail says %+v", all[:2])
	}
	slower := all[2]
	if slower.Who != "ben" || slower.What != "slower, for thin stock" || !slower.At.Equal(noon) || slower.At.Location().String() != b.shop.Zone.String() {
		b.Errorf("the trail says %+v", slower)
	}
	was := b.shop.Folders[0].Units[0]
	b.same([]ledger.Field{
		{Name: "units[0].gap", Before: was.Gap.Format(false), After: "71.5 mm"},
		{Name: "units[0].speed", Before: was.Speed.Format(false), After: "120 m/min"},
	}, slower.Things[0].Fields)

	// By pages, and of one thing.
	var paged []ledger.Change
	for before := int64(0); ; {
		page := b.history(s, ledger.Page{Before: before, Limit: 3})
		if len(page) == 0 || len(paged) > len(all) {
			break
		}
		paged = append(paged, page...)
		before = page[len(page)-1].Revision
	}
	b.same(all, paged)
	for _, odd := range []string{"no such", "\x00", tag.ID + "\x00", "\xff"} {
		if none := b.history(s, ledger.Page{Thing: odd}); len(none) != 0 {
			b.Errorf("%q has %d changes", odd, len(none))
		}
	}
	of := b.history(s, ledger.Page{Thing: tag.ID})
	if len(of) != 2 || len(of[1].Things) != 1 || of[1].Things[0].Deed != "added" {
		b.Errorf("the trail of one folder is %+v", of)
	}
}

func backupAndRestore(b *bench) {
	s, seen := b.filled()
	j := b.aJob(0)
	j.Title = "before the backup"
	saved := b.change(s, "ada", ledger.Put(b.tag(seen, ledger.OfJob, j.Name), j))
	history := b.history(s, ledger.Page{})
	file := filepath.Join(b.TempDir(), "saved.db")
	if err := s.Backup(b.ctx, file); err != nil {
		b.Fatal(err)
	}
	b.faultOf(s.Backup(b.ctx, file), store.CodeBackup) // it never writes over one

	j.Title = "after the backup"
	later := b.change(s, "ada", ledger.Put(b.tag(saved, ledger.OfJob, j.Name), j))
	other := b.open()
	b.same(later.Shop, b.snapshot(other).Shop)
	back, err := s.Restore(b.ctx, ledger.By{Who: "ben", What: "the day before is better"}, file)
	if err != nil {
		b.Fatal(err)
	}
	b.same(saved.Shop, back.Shop)
	b.same(saved.Shop, b.snapshot(other).Shop)
	now := b.history(s, ledger.Page{})
	b.same(history, now[1:])
	if now[0].Who != "ben" {
		b.Errorf("the trail does not say who restored: %+v", now[0])
	}
	// What was read before the restore is no longer what is there, even where it looks the same.
	b.refused(s, ledger.CodeStale, ledger.Put(b.tag(later, ledger.OfJob, j.Name), j))
	b.refused(s, ledger.CodeStale, ledger.Put(b.tag(saved, ledger.OfJob, j.Name), j))
	b.change(other, "ada", ledger.Put(b.tag(back, ledger.OfJob, j.Name), j))
	openedAsStore(b, file, saved.Shop)
}

// openedAsStore holds a backup to being a store by itself, and one file.
func openedAsStore(b *bench, file string, want *shop.Shop) {
	around, err := os.ReadDir(filepath.Dir(file))
	if err != nil || len(around) != 1 {
		b.Errorf("beside the backup lies more: %v %v", around, err)
	}
	alone := &bench{T: b.T, ctx: b.ctx, where: file, shop: b.shop}
	b.same(want, b.snapshot(alone.open()).Shop)
}

func badBackup(b *bench) {
	s, now := b.filled()
	good := filepath.Join(b.TempDir(), "good.db")
	if err := s.Backup(b.ctx, good); err != nil {
		b.Fatal(err)
	}
	whole, err := os.ReadFile(good)
	if err != nil {
		b.Fatal(err)
	}
	for name, content := range map[string][]byte{
		"a text":      []byte("shop: mine\n"),
		"nothing":     nil,
		"cut short":   whole[:len(whole)/2],
		"overwritten": slices.Concat(whole[:4096], make([]byte, len(whole)-4096)),
	} {
		b.T.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "bad.db")
			if err := os.WriteFile(path, content, 0o600); err != nil {
				t.Fatal(err)
			}
			if _, err := s.Restore(b.ctx, ledger.By{Who: "eve"}, path); err == nil {
				t.Error("it was taken back")
			} else {
				t.Log(err)
			}
		})
	}
	if after := b.snapshot(s); after.Revision != now.Revision {
		b.Error("the store was touched")
	}
	b.same(now.Shop, b.snapshot(s).Shop)
}
