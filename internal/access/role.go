package access

// Role is what somebody is in the shop. Each may all that the one before may.
type Role uint8

const (
	Nobody   Role = iota
	Viewer        // sees the shop
	Operator      // works at a folder or the bench, and records it
	Lead          // arranges jobs, sets and the day
	Admin         // rules over folders, standards, people
)

// Roles lists the roles that somebody can be given, least first.
func Roles() []Role { return []Role{Viewer, Operator, Lead, Admin} }

var roleNames = [...]string{Nobody: "nobody", Viewer: "viewer", Operator: "operator", Lead: "lead", Admin: "admin"}

// String is the name of the role.
func (r Role) String() string {
	if int(r) < len(roleNames) {
		return roleNames[r]
	}
	return "nobody"
}

// RoleNamed is the role of a name; false when nobody can be given it.
func RoleNamed(name string) (Role, bool) {
	for _, r := range Roles() {
		if r.String() == name {
			return r, true
		}
	}
	return Nobody, false
}

func (r Role) withArticle() string {
	switch r {
	case Operator, Admin:
		return "an " + r.String()
	}
	return "a " + r.String()
}

// Deed is something to be allowed.
type Deed string

const (
	See     Deed = "see"     // look at jobs, settings, plans, the rack, records
	Record  Deed = "record"  // say what was done: make-readies, what stands on a folder, where a set is and what is on it
	Arrange Deed = "arrange" // change jobs, sets and tools; plan, pin, accept
	Rule    Deed = "rule"    // change folders, hours, standards; people, tokens, backups, the audit trail
)

// Deeds lists the deeds, least first.
func Deeds() []Deed { return []Deed{See, Record, Arrange, Rule} }

// Allows says whether a role allows a deed.
func (r Role) Allows(d Deed) bool { return r != Nobody && r >= d.least() }

func (d Deed) least() Role {
	switch d {
	case See:
		return Viewer
	case Record:
		return Operator
	case Arrange:
		return Lead
	}
	return Admin
}

// what is the deed in words that follow "may not".
func (d Deed) what() string {
	switch d {
	case See:
		return "look at the shop"
	case Record:
		return "record work"
	case Arrange:
		return "change jobs, sets or the plan"
	}
	return "change folders, standards or people"
}
