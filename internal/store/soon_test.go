package store

import (
	"path/filepath"
	"testing"
)

// What is acknowledged as kept waits for the disk, what may come later does not (sqlite.org, PRAGMA synchronous: 2 is FULL, 1 is
// NORMAL), and both see one database.
func TestSoonDoesNotWaitForTheDisk(t *testing.T) {
	s, err := Open(t.Context(), filepath.Join(t.TempDir(), "shop.db"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var kept, soon int
	if err := s.db.QueryRow(`PRAGMA synchronous`).Scan(&kept); err != nil {
		t.Fatal(err)
	}
	if err := s.soon.QueryRow(`PRAGMA synchronous`).Scan(&soon); err != nil {
		t.Fatal(err)
	}
	if kept != 2 || soon != 1 {
		t.Errorf("synchronous is %d and %d, want 2 and 1", kept, soon)
	}
	if _, err := s.execSoon(t.Context(), `INSERT INTO session (digest, expiry_ms, data) VALUES ('a', 1, 'b')`); err != nil {
		t.Fatal(err)
	}
	var n int
	if err := s.db.QueryRow(`SELECT COUNT(*) FROM session`).Scan(&n); err != nil || n != 1 {
		t.Errorf("%d sessions are seen, %v", n, err)
	}
}
