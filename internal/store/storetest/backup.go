package storetest

import (
	"path/filepath"
	"time"

	"foldwright/internal/access"
	"foldwright/internal/ledger"
)

// backupOfDesk holds a backup to drafts, records and people, and a restore to end what must not come back.
func backupOfDesk(b *bench) {
	s, _ := b.filled()
	b.addDraft(s, b.aDraft("d"))
	saved := b.addRecord(s, b.aRecord("r", noon))
	b.ok(s.AddAccount(b.as("ada"), access.Account{Name: "ada", Role: access.Admin, Hash: secretHash, Since: noon}))
	b.ok(s.AddToken(b.as("ada"), access.Token{ID: "t", Name: "screen", Account: "ada", Role: access.Viewer, Digest: secretDigest, Since: noon}))
	b.ok(s.AddInvitation(b.as("ada"), access.Invitation{Digest: "i", Account: "zoë", Until: noon.Add(time.Hour)}))
	b.ok(s.Sessions().Commit("token", []byte("ada"), noon.Add(time.Hour)))
	attempt := ledger.Attempt{Who: "ada", Key: "k"}
	_, _, err := s.Keys().Begin(b.ctx, attempt)
	b.ok(err)
	file := filepath.Join(b.TempDir(), "saved.db")
	b.ok(s.Backup(b.ctx, file))

	later := saved
	later.Sheets++
	later, err = s.PutRecord(b.ctx, later)
	b.ok(err)
	b.ok(s.AddAccount(b.as("ada"), access.Account{Name: "ben", Role: access.Lead, Since: noon}))
	b.ok(s.RemoveToken(b.as("ada"), "t"))
	if _, err := s.Restore(b.ctx, ledger.By{Who: "ada"}, file); err != nil {
		b.Fatal(err)
	}
	back, err := s.Record(b.ctx, "r")
	b.ok(err)
	if back.Version <= later.Version {
		b.Errorf("the record came back with version %d, which was seen before", back.Version)
	}
	saved.Version = back.Version
	b.same(saved, back)
	_, err = s.PutRecord(b.ctx, later)
	b.faultOf(err, ledger.CodeStale)
	b.same([]ledger.Draft{b.aDraft("d")}, b.drafts(s, 0))
	_, err = s.Account(b.ctx, "ben")
	b.faultOf(err, ledger.CodeNoAccount)
	if a := b.account(s, "ada"); a.Hash != secretHash || a.Version != b.snapshot(s).Revision {
		b.Errorf("the account came back as %+v", a)
	}
	_, err = s.TokenByDigest(b.ctx, secretDigest)
	b.ok(err)

	_, found, err := s.Sessions().Find("token")
	b.ok(err)
	_, err2 := s.Invitation(b.ctx, "i")
	b.faultOf(err2, ledger.CodeNoInvitation)
	stands, _, err := s.Keys().Begin(b.ctx, attempt)
	b.ok(err)
	if found || stands != ledger.Fresh {
		b.Errorf("after the restore somebody is logged in (%v), or a key stands at %d", found, stands)
	}
}

// backupWithoutPeople takes back what was saved before anybody had an account.
func backupWithoutPeople(b *bench) {
	s, saved := b.filled()
	file := filepath.Join(b.TempDir(), "saved.db")
	b.ok(s.Backup(b.ctx, file))
	b.ok(s.AddAccount(b.as("ada"), access.Account{Name: "ada", Role: access.Admin, Hash: secretHash, Since: noon}))
	b.ok(s.AddToken(b.as("ada"), access.Token{ID: "t", Name: "screen", Account: "ada", Role: access.Viewer, Digest: secretDigest, Since: noon}))
	b.change(s, "ada", ledger.Remove(b.tag(b.snapshot(s), ledger.OfJob, b.shop.Jobs[len(b.shop.Jobs)-1].Name)))
	back, err := s.Restore(b.as("ada"), ledger.By{Who: "ada"}, file)
	b.ok(err)
	b.same(saved.Shop, back.Shop)
	ada := b.account(s, "ada")
	_, err = s.TokenByDigest(b.ctx, secretDigest)
	b.ok(err)
	told := b.history(s, ledger.Page{Limit: 1})[0].Things
	if len(told) != 2 || told[0].Name != "ada" || told[1].Name != "screen" {
		b.Errorf("the trail does not tell who stayed: %+v", told)
	}
	ada.Lang = "fr"
	b.ok(s.PutAccount(b.as("ada"), ada))
}
