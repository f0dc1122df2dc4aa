package serve

import (
	"context"
	"crypto/rand"
	"os"
	"path/filepath"
	"strings"

	"github.com/alexedwards/argon2id"

	"foldwright/internal/access"
	"foldwright/internal/demo"
	"foldwright/internal/ledger"
)

// Guest is somebody who can log in to the demo.
type Guest struct {
	Name, Password string
	Role           access.Role
}

// Guests makes accounts for the demo that can be used at once: a viewer, an operator and a lead, each with a password that is another one at
// every start.
func (s *Server) Guests(ctx context.Context) ([]Guest, error) {
	ctx = access.With(ctx, access.Who{Name: "demo", Role: access.Admin})
	var list []Guest
	for _, role := range []access.Role{access.Viewer, access.Operator, access.Lead} {
		g := Guest{Name: role.String(), Password: spelled(rand.Text()), Role: role}
		secret, err := s.desk.Invite(ctx, g.Name, role, "")
		if err == nil {
			_, err = s.desk.ChoosePassword(ctx, secret, "", g.Password)
		}
		if err != nil {
			return nil, err
		}
		list = append(list, g)
	}
	return list, nil
}

// spelled is chance that can be typed from a terminal: three groups of four, 60 bits.
func spelled(chance string) string {
	small := strings.ToLower(chance)
	return small[:4] + "-" + small[4:8] + "-" + small[8:12]
}

// demoPlace is a directory for the database of the demo, and how to be rid of it.
func demoPlace() (where string, discard func() error, err error) {
	dir, err := os.MkdirTemp("", "foldwright-demo-")
	return filepath.Join(dir, "demo.db"), func() error { return os.RemoveAll(dir) }, err
}

// fillDemo puts the demo shop into the store. Its passwords are made by chance, so nothing is won by making them slow.
func fillDemo(ctx context.Context, s *Server) error {
	s.desk.Costs = &argon2id.Params{Memory: 1024, Iterations: 1, Parallelism: 1, SaltLength: 16, KeyLength: 32}
	shop, err := demo.Shop()
	if err != nil {
		return err
	}
	_, err = s.store.Fill(ctx, ledger.By{Who: "demo", What: "the demo shop"}, shop)
	return err
}
