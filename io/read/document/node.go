package document

import (
	"fmt"
	"strings"
)

// Kind is the shape of a value.
type Kind uint8

// The shapes. Empty is a key without a value, ~ or null.
const (
	Empty Kind = iota
	Scalar
	Map
	List
)

// Node is one value of a file and where it stands.
type Node struct {
	Kind         Kind
	Quoted       bool   // a scalar in quotes, or a block of text
	Text         string // a scalar's characters as typed, without quotes and outer blanks
	Pairs        []Pair // of a map, in file order, repeated keys included
	Items        []Node // of a list
	Line, Column int    // counted from 1
}

// Pair is a key of a map with its value.
type Pair struct {
	key   word
	Value Node
}

// word is the scalar that a key is: a Node would take twice the memory.
type word struct {
	text         string
	quoted       bool
	line, column int
}

// Key is the key, a scalar.
func (p Pair) Key() Node {
	return Node{Kind: Scalar, Quoted: p.key.quoted, Text: p.key.text, Line: p.key.line, Column: p.key.column}
}

// Has reports whether the map n has the key with a value that is not empty.
func (n Node) Has(key string) bool { return n.Get(key).Kind != Empty }

// Get returns the value of the first such key of the map n, or an Empty node.
func (n Node) Get(key string) Node {
	for _, pair := range n.Pairs {
		if pair.key.text == key {
			return pair.Value
		}
	}
	return Node{}
}

// describe says in words what stands at n, for a message.
func (n Node) describe() string {
	switch n.Kind {
	case Empty:
		return "empty"
	case Map:
		return "a map of keys"
	case List:
		return "a list"
	}
	return fmt.Sprintf("%q", shorten(n.Text))
}

// shorten keeps a message readable when a whole paragraph stands where a word
// should.
func shorten(text string) string {
	const most = 60 // characters
	letters := []rune(strings.ToValidUTF8(text, "?"))
	if len(letters) <= most {
		return string(letters)
	}
	return string(letters[:most]) + "..."
}
