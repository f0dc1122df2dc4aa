package access

import "time"

// Account is a person who can log in.
type Account struct {
	Name    string
	Role    Role
	Hash    string // of the password, in the form that names its own costs; empty until one is chosen
	Lang    string // of the pages; empty = the browser's wish
	Inch    *bool  // nil = as the shop reads lengths
	Since   time.Time
	Ended   bool // may not log in any more; the name stays with what was done under it
	Version int64
}

// Token lets a program in under an account's name, with a role of its own that is not above the account's.
type Token struct {
	ID      string
	Name    string // what the program is called
	Account string
	Role    Role
	Digest  string // of the secret, which is shown once and kept nowhere
	Since   time.Time
	Until   time.Time // zero: until it is taken back
	Used    time.Time // about when it was used last; zero: never
}

// Invitation lets somebody choose a password, once: the first admin, somebody new, or somebody who forgot theirs.
type Invitation struct {
	Digest  string // of the secret in the link
	Account string // empty: whoever comes first makes the first account, as admin
	Until   time.Time
}
