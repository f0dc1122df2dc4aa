package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
)

type completionCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"bash, zsh or fish."`
}

func (completionCommand) Help() string {
	return `
Put the script where your shell reads it at its start. It completes commands, flags, and the names of jobs and folders
of the shop.

Examples:

    foldwright completion bash > ~/.local/share/bash-completion/completions/foldwright
    foldwright completion zsh > ~/.zfunc/_foldwright
    foldwright completion fish > ~/.config/fish/completions/foldwright.fish
`
}

func (c completionCommand) Run(s streams) error {
	s.say("%s", completionScripts[c.Shell])
	return nil
}

// completionScripts hold as little as a shell needs: each asks the program itself for the words that may come next, so
// that they never grow stale.
var completionScripts = map[string]string{
	"bash": `_foldwright() {
    local IFS=$'\n'
    COMPREPLY=($(foldwright complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
    [ ${#COMPREPLY[@]} -eq 0 ] && compopt -o default
}
complete -F _foldwright foldwright`,
	"zsh": `#compdef foldwright
_foldwright() {
    local -a found
    found=(${(f)"$(foldwright complete -- "${words[@]:1:$((CURRENT-1))}" 2>/dev/null)"})
    if (( ${#found} )); then compadd -a found; else _files; fi
}
if [ "$funcstack[1]" = _foldwright ]; then _foldwright "$@"; else compdef _foldwright foldwright; fi`,
	"fish": `complete -c foldwright -f -a '(set -l typed (commandline -opc) (commandline -ct); foldwright complete -- $typed[2..-1] 2>/dev/null)'
complete -c foldwright -n '__fish_seen_argument -l shop -l pages -l write; or __fish_seen_subcommand_from check' -F`,
}

// completeCommand answers the scripts: the last word is the one being typed, perhaps empty.
type completeCommand struct {
	Words []string `arg:"" optional:"" passthrough:""`
}

func (c completeCommand) Help() string {
	return "\nExample:\n\n    foldwright complete -- settings --fo\n"
}

func (c completeCommand) Run(ctx context.Context, k *kong.Kong, s streams) error {
	typed := c.Words
	if len(typed) > 0 && typed[0] == "--" {
		typed = typed[1:]
	}
	if len(typed) == 0 {
		typed = []string{""}
	}
	for _, word := range candidates(k.Model.Node, typed, func(kind, file string) []string { return names(ctx, s, kind, file) }) {
		fmt.Fprintln(s.out, word)
	}
	return nil
}

// candidates lists the words that may stand where the last of typed stands: sub-commands, flags, the values of an enum,
// or the names that lookup knows of the kind of thing an argument is called after ("job", "folder").
func candidates(node *kong.Node, typed []string, lookup func(kind, shop string) []string) []string {
	at := walk(node, typed[:len(typed)-1])
	last := typed[len(typed)-1]
	var found []string
	switch {
	case at.flag != nil:
		found = values(at.flag.Value, at.shop, lookup)
	case strings.HasPrefix(last, "-"):
		for _, f := range at.node.Flags {
			if !f.Hidden {
				found = append(found, "--"+f.Name)
			}
		}
		found = append(found, "--help")
	case at.argument < len(at.node.Positional):
		found = values(at.node.Positional[at.argument], at.shop, lookup)
	case at.argument == 0:
		for _, child := range at.node.Children {
			if !child.Hidden {
				found = append(found, child.Name)
			}
		}
	}
	found = slices.DeleteFunc(found, func(word string) bool { return !strings.HasPrefix(word, last) })
	slices.Sort(found)
	return slices.Compact(found)
}

// place is where in the grammar the words typed so far lead.
type place struct {
	node     *kong.Node
	flag     *kong.Flag // whose value comes next, or nil
	argument int        // positional arguments already given
	shop     string     // the value of --shop, if given
}

func walk(node *kong.Node, words []string) place {
	at := place{node: node}
	for _, word := range words {
		switch {
		case at.flag != nil:
			if at.flag.Name == "shop" {
				at.shop = word
			}
			at.flag = nil
		case strings.HasPrefix(word, "-"):
			at.flag = expecting(at.node, word)
		default:
			if child := named(at.node, word); child != nil {
				at.node, at.argument = child, 0
			} else {
				at.argument++
			}
		}
	}
	return at
}

// expecting gives the flag whose value is the next word, or nil when the word is a whole by itself.
func expecting(node *kong.Node, word string) *kong.Flag {
	for _, f := range node.Flags {
		if word == "--"+f.Name && !f.IsBool() {
			return f
		}
	}
	return nil
}

func named(node *kong.Node, word string) *kong.Node {
	for _, child := range node.Children {
		if child.Name == word {
			return child
		}
	}
	return nil
}

func values(v *kong.Value, shop string, lookup func(kind, shop string) []string) []string {
	if v.Enum != "" {
		return v.EnumSlice()
	}
	return lookup(v.Tag.Get("names"), shop)
}
