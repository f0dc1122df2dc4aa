package exchange

import (
	"bytes"
	"encoding/json"

	"go.yaml.in/yaml/v4"
)

// jsonOf is a tree of plain nodes as JSON, in the order of the tree.
func jsonOf(n *yaml.Node) json.RawMessage { return appendJSON(nil, n) }

func appendJSON(out []byte, n *yaml.Node) []byte {
	switch n.Kind {
	case yaml.MappingNode:
		out = append(out, '{')
		for i := 0; i+1 < len(n.Content); i += 2 {
			if i > 0 {
				out = append(out, ',')
			}
			out = append(appendText(out, n.Content[i].Value), ':')
			out = appendJSON(out, n.Content[i+1])
		}
		return append(out, '}')
	case yaml.SequenceNode:
		out = append(out, '[')
		for i, v := range n.Content {
			if i > 0 {
				out = append(out, ',')
			}
			out = appendJSON(out, v)
		}
		return append(out, ']')
	}
	if n.Tag == "!!str" {
		return appendText(out, n.Value)
	}
	return append(out, n.Value...)
}

func appendText(out []byte, text string) []byte {
	quoted, err := json.Marshal(text)
	if err != nil {
		panic(err) // a text
	}
	return append(out, bytes.ReplaceAll(quoted, []byte{0x7f}, []byte(`\u007f`))...) // no reader takes that sign bare
}
