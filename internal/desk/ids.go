package desk

import (
	"encoding/base32"
	"io"
	"strings"
)

// newID makes a name that nothing else has: 80 random bits, in letters that are not mistaken for one another when read aloud.
func (d *Desk) newID() string { return d.random(10) }

// newSecret makes something that nobody can guess: 200 random bits.
func (d *Desk) newSecret() string { return d.random(25) }

func (d *Desk) random(n int) string {
	b := make([]byte, n)
	if _, err := io.ReadFull(d.Random, b); err != nil {
		panic(err) // the system has no randomness: nothing that is secret can be made
	}
	return strings.ToLower(base32.NewEncoding("ABCDEFGHJKMNPQRSTVWXYZ0123456789").WithPadding(base32.NoPadding).EncodeToString(b))
}
