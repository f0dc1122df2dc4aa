package desk

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/alexedwards/argon2id"
	"golang.org/x/text/secure/precis"

	"foldwright/internal/fault"
)

// CodePassword is the code of a password that is no good.
const CodePassword fault.Code = "password"

// A password is long rather than wild: length is what guessing costs.
const (
	passwordLeast = 10
	passwordMost  = 200
)

// foolish are passwords that are tried first by whoever guesses, and that are long enough to pass otherwise.
var foolish = []string{
	"0123456789", "1234567890", "12345678910", "123456789012", "0987654321", "9876543210", "1q2w3e4r5t", "1qaz2wsx3edc",
	"qwertyuiop", "qwertzuiop", "azertyuiop", "asdfghjkl;", "qwerty12345", "qwerty123456", "abcdefghij", "abcdefghijkl", "abc123abc123",
	"password12", "password123", "password1234", "passwordpassword", "mypassword1", "passwort123", "passwort1234", "kennwort123",
	"contraseña", "contraseña1", "motdepasse", "motdepasse1", "letmein123", "letmeinplease", "changeme123", "changemenow",
	"administrator", "admin12345", "welcome123", "willkommen1", "bienvenido", "bienvenue1", "iloveyou123", "foldwright", "foldwright1", "foldingmachine",
}

// usualCosts are those that RFC 9106, section 4, recommends as second choice, for machines without 2 GB to spare.
var usualCosts = argon2id.Params{Memory: 64 * 1024, Iterations: 3, Parallelism: 4, SaltLength: 16, KeyLength: 32}

// hashingsMost is how many passwords are worked on at once: each takes 64 MB and all cores for a moment.
const hashingsMost = 2

// hashing keeps what working on passwords needs between two of them.
type hashing struct {
	once  sync.Once
	turns chan struct{}
	decoy string // a hash that nothing fits
	err   error
}

// ready waits for a turn; the caller gives it back.
func (d *Desk) ready(ctx context.Context) (back func(), err error) {
	h := &d.hashing
	h.once.Do(func() {
		h.turns = make(chan struct{}, hashingsMost)
		h.decoy, h.err = argon2id.CreateHash(d.newSecret(), d.costs())
	})
	if h.err != nil {
		return nil, h.err
	}
	select {
	case h.turns <- struct{}{}:
		return func() { <-h.turns }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

func (d *Desk) costs() *argon2id.Params {
	if d.Costs != nil {
		return d.Costs
	}
	return &usualCosts
}

// hash makes of a password what is kept of it.
func (d *Desk) hash(ctx context.Context, password string) (string, error) {
	back, err := d.ready(ctx)
	if err != nil {
		return "", err
	}
	defer back()
	return argon2id.CreateHash(password, d.costs())
}

// fits says whether a password is the one of a hash. Without a hash it takes as long and the answer is no.
func (d *Desk) fits(ctx context.Context, password, hash string) (bool, error) {
	back, err := d.ready(ctx)
	if err != nil {
		return false, err
	}
	defer back()
	known := hash != ""
	if !known {
		hash = d.hashing.decoy
	}
	password, err = prepared8265(password)
	if err != nil {
		known = false
	}
	ok, err := argon2id.ComparePasswordAndHash(password, hash)
	return ok && known, err
}

// prepared8265 gives a password the one form in which it is hashed, however a keyboard or a system composes its letters: the
// OpaqueString of RFC 8265. What is too long is not looked at.
func prepared8265(password string) (string, error) {
	if len(password) > 4*passwordMost || !utf8.ValidString(password) {
		return "", errors.New("no text that anybody types")
	}
	return precis.OpaqueString.String(password)
}

// checkPassword holds a new password to the rule and gives the form in which it is hashed.
func checkPassword(password, name string) (string, error) {
	no := func(wrong, right string) (string, error) {
		return "", fault.Fault{Kind: fault.Input, Code: CodePassword, Field: "password", Wrong: wrong, Right: right}
	}
	if n := utf8.RuneCountInString(password); n < passwordLeast || n > passwordMost {
		return no(fmt.Sprintf("the password has %d characters", n), fmt.Sprintf("%d to %d; several words that only you would put together are good", passwordLeast, passwordMost))
	}
	ready, err := prepared8265(password)
	if err != nil {
		return no("the password has characters that not every keyboard gives again", "letters, digits, signs and blanks")
	}
	small := strings.ToLower(ready)
	switch {
	case name != "" && strings.Trim(small, "0123456789.!-_ ") == name, name != "" && small == name+name:
		return no("the password is the name", "one that nobody gets from the name")
	case slices.Contains(foolish, small) || kinds(small) < 4:
		return no("the password is one of those that are tried first", "several words that only you would put together")
	}
	return ready, nil
}

// kinds counts the different characters of a text.
func kinds(text string) int {
	list := []rune(text)
	slices.Sort(list)
	return len(slices.Compact(list))
}
