package api

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"strconv"
	"strings"

	"foldwright/internal/fault"
)

// etag is a version as an entity tag.
func etag(version int64) string { return `"` + strconv.FormatInt(version, 10) + `"` }

// etagOf is the entity tag of what is made anew at every request: the same bytes, the same tag.
func etagOf(data []byte) string {
	sum := sha256.Sum256(data)
	return `"` + hex.EncodeToString(sum[:12]) + `"`
}

// IfMatch says on which version a change was made.
type IfMatch struct {
	IfMatch string `header:"If-Match" doc:"The ETag of the version that the change was made on; needed, so that nobody overwrites what they have not seen."`
}

// version is the version of the condition. A star would let through what nobody has seen.
func (m IfMatch) version() (int64, error) {
	tag := strings.TrimSpace(m.IfMatch)
	if tag == "" || tag == "*" {
		return 0, problemOf(http.StatusPreconditionRequired, "Say which version you changed", fault.Fault{Code: CodeMatch, Field: "If-Match", Wrong: "the change does not say which version it was made on", Right: `read it first, and send its ETag: If-Match: "17"`})
	}
	text, ok := strings.CutPrefix(tag, `"`)
	text, closed := strings.CutSuffix(text, `"`)
	n, err := strconv.ParseInt(text, 10, 64)
	if !ok || !closed || err != nil || n < 0 {
		return 0, fault.Fault{Kind: fault.Input, Code: CodeMatch, Field: "If-Match", Wrong: clip(tag) + " is no ETag that was given here", Right: `the ETag of the answer that you read, such as "17"`}
	}
	return n, nil
}

// IfNoneMatch says which version the client has already.
type IfNoneMatch struct {
	IfNoneMatch string `header:"If-None-Match" doc:"The ETag that you have already; while it is still the one, the answer is 304 without a body."`
}

// has tells whether the client has this version.
func (m IfNoneMatch) has(tag string) bool {
	for one := range strings.SplitSeq(m.IfNoneMatch, ",") {
		one = strings.TrimPrefix(strings.TrimSpace(one), "W/")
		if one == "*" || one == tag {
			return true
		}
	}
	return false
}
