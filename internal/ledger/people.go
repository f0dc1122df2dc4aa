package ledger

import "foldwright/internal/fault"

// Who can come in is no part of the shop, and no [Edit] changes it; the trail tells of it all the same, with these kinds.
const (
	OfAccount    Kind = "account"
	OfToken      Kind = "token"
	OfInvitation Kind = "invitation"
)

// The codes of people and programs that want to come in.
const (
	CodeNoAccount      fault.Code = "no-account"
	CodeNoToken        fault.Code = "no-token"
	CodeNoInvitation   fault.Code = "no-invitation"
	CodeInvitationOver fault.Code = "invitation-over"
	CodeLastAdmin      fault.Code = "last-admin" // nobody would be left who can rule
)
