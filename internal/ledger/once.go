package ledger

// Attempt is a request to write something that its asker may send again under the same key, not knowing whether the first
// one arrived.
type Attempt struct {
	Who    string // keys of different askers have nothing to do with each other
	Key    string
	What   string // method and path
	Digest string // of the body
}

// Standing tells how an attempt stands.
type Standing uint8

const (
	Fresh    Standing = iota // the first of its key: do it, then say how it ended
	Answered                 // done before: give the same answer
	Open                     // begun before and not ended: somebody is at it, or was when the server broke off
	Other                    // the key was used for something else
)

// Answer is what a request was answered.
type Answer struct {
	Status int
	Header map[string][]string
	Body   []byte
}
