package job

import (
	"foldwright/internal/fold"
	"foldwright/internal/tooling"
	"foldwright/internal/words"
)

// Words is the operation for people: what [Operation.String] says, in the language and unit of the reader.
func (o Operation) Words() words.Text {
	if o.Target == OnEdge {
		return wordsWith(o.trimWords(), o.Spec)
	}
	text := o.place(words.Fine(o.At))
	switch {
	case o.Kind != tooling.Strip:
		text = wordsWith(text, o.Spec)
	case o.Spec == "":
		text = words.T("%s strip", text)
	default:
		text = words.T("%s strip %s", text, o.Spec)
	}
	switch o.Ups {
	case 1:
		return words.T("%s one-up", text)
	case 2:
		return words.T("%s two-up", text)
	}
	return text
}

// Short is the operation as it stands beside a tool: "fold 2", "slit at t 305", "trim foot".
func (o Operation) Short() words.Text {
	switch o.Target {
	case OnFold:
		return words.T("fold %d", o.Fold)
	case OnEdge:
		return map[Edge]words.Text{Head: words.T("trim head"), Foot: words.T("trim foot"), Front: words.T("trim front")}[o.Edge]
	}
	return o.place(words.Bare(o.At))
}

// place is what is done where, of an operation that is no trim; at is the length as it is to be said.
func (o Operation) place(at any) words.Text {
	verb := words.T(verbs[o.Kind])
	switch {
	case o.Target == OnFold:
		return words.T("%s fold %d", verb, o.Fold)
	case o.Axis == fold.S:
		return words.T("%s at s %s", verb, at)
	}
	return words.T("%s at t %s", verb, at)
}

func (o Operation) trimWords() words.Text {
	by := words.Fine(o.At)
	switch o.Edge {
	case Head:
		return words.T("trim %s at the head", by)
	case Foot:
		return words.T("trim %s at the foot", by)
	}
	return words.T("trim %s at the front", by)
}

func wordsWith(text words.Text, spec string) words.Text {
	if spec == "" {
		return text
	}
	return words.T("%s with %s", text, spec)
}
