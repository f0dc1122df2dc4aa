// Package access says who may do what: people and programs, their roles, and the deeds a role allows.
//
// The asker travels with the context ([With], [From]); every use case asks [Who.May] before it does anything, so no door
// can forget to. A context that nobody signed belongs to nobody, who may nothing.
package access

import (
	"context"
	"fmt"

	"foldwright/internal/fault"
)

// CodeDenied is the code of a deed that a role does not allow.
const CodeDenied fault.Code = "not-allowed"

// Who asks: a person, or a program with a token.
type Who struct {
	Name string // of the account
	Role Role
	By   string // the name of the token when a program asks; empty for the person
}

// String is the asker as the audit trail names it: "ada", or "ada by shop-screen" for a program.
func (w Who) String() string {
	if w.By == "" {
		return w.Name
	}
	return w.Name + " by " + w.By
}

// May says no with a fault when the role does not allow the deed.
func (w Who) May(d Deed) error {
	if w.Role.Allows(d) {
		return nil
	}
	return fault.Fault{
		Kind: fault.Denied, Code: CodeDenied, Field: string(d),
		Wrong: fmt.Sprintf("%s may not %s", w.called(), d.what()), Right: fmt.Sprintf("ask somebody who is %s", d.least().withArticle()),
	}
}

func (w Who) called() string {
	if w.Role == Nobody {
		return "somebody who is not logged in"
	}
	return w.Role.withArticle()
}

type key struct{}

// With signs a context with who asks.
func With(ctx context.Context, w Who) context.Context { return context.WithValue(ctx, key{}, w) }

// From is who asks; nobody when nobody signed.
func From(ctx context.Context) Who {
	w, _ := ctx.Value(key{}).(Who)
	return w
}
