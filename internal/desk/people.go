package desk

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/secure/precis"

	"foldwright/internal/access"
	"foldwright/internal/fault"
	"foldwright/internal/ledger"
	"foldwright/internal/words"
)

// The codes of people and of how they come in.
const (
	CodeLogIn       fault.Code = "log-in"       // name and password do not belong together
	CodeAccountName fault.Code = "account-name" // a name that an account cannot have
	CodeInvitation  fault.Code = "invitation"   // a link that is not for whoever uses it
	CodeRole        fault.Code = "role"         // no role, or one that cannot be given here
	CodeLang        fault.Code = "language"     // a language that the pages do not speak
)

// InvitationLasts is how long a link may be used.
const InvitationLasts = 24 * time.Hour

// Account is somebody who can log in, as it may be shown.
type Account struct {
	Name    string
	Role    access.Role
	Lang    string // of the pages; empty = the browser's wish
	Inch    *bool  // nil = as the shop reads lengths
	Since   time.Time
	Ended   bool
	Chosen  bool // a password was chosen; false: invited only
	Version int64
}

func shown(a access.Account) Account {
	return Account{Name: a.Name, Role: a.Role, Lang: a.Lang, Inch: a.Inch, Since: a.Since, Ended: a.Ended, Chosen: a.Hash != "", Version: a.Version}
}

// FirstInvitation makes the secret of the link for whoever sets a new database up; empty when there are accounts already.
func (d *Desk) FirstInvitation(ctx context.Context) (secret string, err error) {
	if err := access.From(ctx).May(access.Rule); err != nil {
		return "", err
	}
	all, err := d.Books.Accounts(ctx)
	if err != nil || len(all) > 0 {
		return "", err
	}
	return d.invitation(ctx, "")
}

// Invite makes the secret of a link by which somebody chooses a password, once. A new name becomes an account of that role;
// for a name that is there already leave the role at Nobody: the account stays as it is, and so does its password until another one is
// chosen.
func (d *Desk) Invite(ctx context.Context, name string, role access.Role, lang string) (secret string, err error) {
	if err := access.From(ctx).May(access.Rule); err != nil {
		return "", err
	}
	if name, err = accountName(name); err != nil {
		return "", err
	}
	there, err := d.Books.Account(ctx, name)
	switch {
	case err == nil && role != access.Nobody:
		return "", fault.Fault{Kind: fault.Conflict, Code: ledger.CodeTwice, Field: "name", Wrong: fmt.Sprintf("there is an account %s already", name), Right: "another name; or, for a new password, leave the role out"}
	case err == nil && there.Ended:
		return "", fault.Fault{Kind: fault.Conflict, Code: CodeInvitation, Field: "name", Wrong: fmt.Sprintf("%s has been ended", name), Right: "let the account in again first"}
	case err == nil:
		return d.invitation(ctx, name)
	case !isMissing(err):
		return "", err
	}
	a := access.Account{Name: name, Role: role, Lang: lang, Since: d.moment()}
	if err := checkAccount(a); err != nil {
		return "", err
	}
	if err := d.Books.AddAccount(ctx, a); err != nil {
		return "", err
	}
	return d.invitation(ctx, name)
}

func (d *Desk) invitation(ctx context.Context, name string) (secret string, err error) {
	secret = d.newSecret()
	return secret, d.Books.AddInvitation(ctx, access.Invitation{Digest: digest(secret), Account: name, Until: d.moment().Add(InvitationLasts)})
}

// Invited says for whom a link is, without using it up; an empty name is the first admin, who chooses one.
func (d *Desk) Invited(ctx context.Context, secret string) (name string, err error) {
	i, err := d.Books.Invitation(ctx, digest(secret))
	return i.Account, err
}

// ChoosePassword uses an invitation up. The first one makes the account of the first admin under the name given; of any
// other the name may be left out. A password that is no good leaves the invitation as it was.
func (d *Desk) ChoosePassword(ctx context.Context, secret, name, password string) (Account, error) {
	if name != "" {
		var err error
		if name, err = accountName(name); err != nil {
			return Account{}, err
		}
	}
	i, err := d.Books.Invitation(ctx, digest(secret))
	if err != nil {
		return Account{}, err
	}
	a, err := d.invitee(ctx, i, name)
	if err != nil {
		return Account{}, err
	}
	ready, err := checkPassword(password, a.Name)
	if err != nil {
		return Account{}, err
	}
	if a.Hash, err = d.hash(ctx, ready); err != nil {
		return Account{}, err
	}
	return shown(a), d.moveIn(ctx, i, a)
}

// invitee is the account that an invitation is for: of the first one it is still to be made.
func (d *Desk) invitee(ctx context.Context, i access.Invitation, name string) (access.Account, error) {
	if i.Account == "" {
		a := access.Account{Name: name, Role: access.Admin, Since: d.moment()}
		return a, checkAccount(a)
	}
	if name != "" && name != i.Account {
		return access.Account{}, fault.Fault{Kind: fault.Input, Code: CodeInvitation, Field: "name", Wrong: "this link is for somebody else", Right: "the name that the link was made for, or none"}
	}
	a, err := d.Books.Account(ctx, i.Account)
	if err == nil && a.Ended {
		err = fault.Fault{Kind: fault.Denied, Code: CodeInvitation, Wrong: fmt.Sprintf("%s has been ended", a.Name), Right: "ask an admin to let the account in again"}
	}
	return a, err
}

// moveIn takes the invitation and keeps the account. Of several who are first at once, one is.
func (d *Desk) moveIn(ctx context.Context, i access.Invitation, a access.Account) error {
	d.choosing.Lock()
	defer d.choosing.Unlock()
	if _, err := d.Books.TakeInvitation(ctx, i.Digest); err != nil {
		return err
	}
	if i.Account != "" {
		return d.Books.PutAccount(ctx, a)
	}
	all, err := d.Books.Accounts(ctx)
	if err == nil && len(all) > 0 {
		err = fault.Fault{Kind: fault.Conflict, Code: CodeInvitation, Wrong: "somebody was first and is the admin now", Right: "ask them for a link of your own"}
	}
	if err != nil {
		return err
	}
	return d.Books.AddAccount(ctx, a)
}

// LogIn says whose name and password these are. A name that is not there takes as long as one that is.
func (d *Desk) LogIn(ctx context.Context, name, password string) (Account, error) {
	a, err := access.Account{}, error(nil)
	if name, bad := accountName(name); bad == nil {
		a, err = d.Books.Account(ctx, name)
	}
	if err != nil && !isMissing(err) {
		return Account{}, err
	}
	ok, err := d.fits(ctx, password, a.Hash)
	switch {
	case err != nil:
		return Account{}, err
	case !ok || a.Ended:
		return Account{}, fault.Fault{Kind: fault.Denied, Code: CodeLogIn, Wrong: "no account has this name and this password", Right: "try again, or ask an admin for a link to choose a new password"}
	}
	return shown(a), nil
}

// Vouched says whose account it is that another system has vouched for. A role that the other system gave becomes the account's;
// Nobody leaves it as it is. A name that is not there gets an account when there is a fresh role, which counts where the other system
// gave none.
func (d *Desk) Vouched(ctx context.Context, name string, role, fresh access.Role) (Account, error) {
	name, err := accountName(name)
	if err != nil {
		return Account{}, err
	}
	a, err := d.Books.Account(ctx, name)
	switch {
	case err == nil && a.Ended, err != nil && isMissing(err) && fresh == access.Nobody:
		return Account{}, fault.Fault{Kind: fault.Denied, Code: CodeLogIn, Wrong: fmt.Sprintf("%s has no account here", name), Right: "ask an admin for one"}
	case err != nil && isMissing(err):
		if role != access.Nobody {
			fresh = role
		}
		a = access.Account{Name: name, Role: fresh, Since: d.moment()}
		if err := checkAccount(a); err != nil {
			return Account{}, err
		}
		return shown(a), d.Books.AddAccount(ctx, a)
	case err != nil:
		return Account{}, err
	}
	if role != access.Nobody && role != a.Role {
		a.Role = role
		if err := d.Books.PutAccount(ctx, a); err != nil {
			return Account{}, err
		}
		d.forgetTokens()
	}
	return shown(a), nil
}

// Holder is the account of a name together with its hash, for the door that has to know whom it let in. It is not to be shown.
func (d *Desk) Holder(ctx context.Context, name string) (access.Account, error) {
	return d.Books.Account(ctx, name)
}

// Accounts lists the accounts by name.
func (d *Desk) Accounts(ctx context.Context) ([]Account, error) {
	if err := access.From(ctx).May(access.Rule); err != nil {
		return nil, err
	}
	kept, err := d.Books.Accounts(ctx)
	list := make([]Account, len(kept))
	for i, a := range kept {
		list[i] = shown(a)
	}
	return list, err
}

// Myself is the asker's own account.
func (d *Desk) Myself(ctx context.Context) (Account, error) {
	who := access.From(ctx)
	if err := who.May(access.See); err != nil {
		return Account{}, err
	}
	a, err := d.Books.Account(ctx, who.Name)
	return shown(a), err
}

// PutAccount changes role, language, unit and whether somebody may still come in. Everybody may choose the language and unit of
// their own account; the rest is for who rules. A version that is no longer the one kept is a conflict.
func (d *Desk) PutAccount(ctx context.Context, a Account) (Account, error) {
	who := access.From(ctx)
	name, err := accountName(a.Name)
	if err != nil {
		return Account{}, err
	}
	if !own(who, name) {
		if err := who.May(access.Rule); err != nil {
			return Account{}, err
		}
	}
	now, err := d.Books.Account(ctx, name)
	if err != nil {
		return Account{}, err
	}
	if a.Role != now.Role || a.Ended != now.Ended {
		if err := who.May(access.Rule); err != nil {
			return Account{}, err
		}
	}
	now.Role, now.Lang, now.Inch, now.Ended, now.Version = a.Role, a.Lang, a.Inch, a.Ended, a.Version
	if err := checkAccount(now); err != nil {
		return Account{}, err
	}
	if err := d.Books.PutAccount(ctx, now); err != nil {
		return Account{}, err
	}
	d.forgetTokens()
	now, err = d.Books.Account(ctx, name)
	return shown(now), err
}

// ChangePassword gives the asker another password. It takes the old one, so that a screen left alone does not give the account away.
func (d *Desk) ChangePassword(ctx context.Context, old, password string) error {
	who := access.From(ctx)
	if !own(who, who.Name) {
		return fault.Fault{Kind: fault.Denied, Code: access.CodeDenied, Field: "password", Wrong: "only somebody who is logged in can change their password", Right: "log in"}
	}
	a, err := d.Books.Account(ctx, who.Name)
	if err != nil {
		return err
	}
	ready, err := checkPassword(password, a.Name)
	if err != nil {
		return err
	}
	ok, err := d.fits(ctx, old, a.Hash)
	if err != nil {
		return err
	}
	if !ok {
		return fault.Fault{Kind: fault.Input, Code: CodeLogIn, Field: "old", Wrong: "this is not the password so far", Right: "the password that you log in with"}
	}
	if a.Hash, err = d.hash(ctx, ready); err != nil {
		return err
	}
	return d.Books.PutAccount(ctx, a)
}

// checkAccount holds an account to what can be.
func checkAccount(a access.Account) error {
	var list fault.List
	if _, err := accountName(a.Name); err != nil {
		list = append(list, fault.All(err)...)
	}
	if _, ok := access.RoleNamed(a.Role.String()); !ok {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeRole, Field: "role", Wrong: "no role is named", Right: roleNames()})
	}
	known := a.Lang == ""
	var langs []string
	for _, l := range words.Langs() {
		known = known || a.Lang == string(l)
		langs = append(langs, string(l))
	}
	if !known {
		list.Add(fault.Fault{Kind: fault.Input, Code: CodeLang, Field: "lang", Wrong: fmt.Sprintf("%q is no language of the pages", a.Lang), Right: strings.Join(langs, ", ") + ", or nothing for the browser's"})
	}
	return list.Err()
}

func roleNames() string {
	var names []string
	for _, r := range access.Roles() {
		names = append(names, r.String())
	}
	return strings.Join(names, ", ")
}

// accountName gives a name the one form in which it is kept, the UsernameCaseMapped of RFC 8265: Ada and ada are one. Beyond
// that it is held to letters, digits and a few signs, since it stands in trails, addresses and labels.
func accountName(name string) (string, error) {
	no := fault.Fault{Kind: fault.Input, Code: CodeAccountName, Field: "name", Wrong: fmt.Sprintf("%.80q is no name for an account", name), Right: "1 to 64 letters, digits and . _ - @, beginning with a letter or digit"}
	if len(name) > 256 || !utf8.ValidString(name) {
		no.Wrong = "this is no name for an account"
		return "", no
	}
	ready, err := precis.UsernameCaseMapped.String(strings.TrimSpace(name))
	if err != nil || ready == "" || utf8.RuneCountInString(ready) > 64 {
		return "", no
	}
	for i, r := range ready {
		word := unicode.In(r, unicode.Letter, unicode.Digit, unicode.Mark)
		if !word && (i == 0 || !strings.ContainsRune("._-@", r)) {
			return "", no
		}
	}
	return ready, nil
}

// AccountName is the form in which a name is kept, so that all ways to write it count as one; empty for what no account is called.
func AccountName(name string) string {
	kept, err := accountName(name)
	if err != nil {
		return ""
	}
	return kept
}

// digest is what is kept of a secret that is made by chance: it needs no slow hash, for nobody guesses 200 bits.
func digest(secret string) string {
	sum := sha256.Sum256([]byte(secret))
	return hex.EncodeToString(sum[:])
}

// moment is now, as exact as it is kept.
func (d *Desk) moment() time.Time { return d.Now().Truncate(time.Millisecond) }

// own says whether it is the person of the account who asks, and no program.
func own(who access.Who, account string) bool {
	return who.Role != access.Nobody && who.By == "" && who.Name == account
}

func isMissing(err error) bool {
	all := fault.All(err)
	return len(all) == 1 && all[0].Kind == fault.Missing
}
