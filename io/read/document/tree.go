package document

import (
	"fmt"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// node copies one value of the library's tree into ours, by its token: the
// library's own number would read 0417 as octal.
func (p *parse) node(from ast.Node, level int) Node {
	if from == nil {
		return Node{}
	}
	n := Node{}
	n.Line, n.Column = p.place(firstToken(from))
	if level > mostLevels {
		p.refuse(from.GetToken(), fmt.Sprintf("maps and lists are nested deeper than %d levels", mostLevels), "look at the indentation of this line")
		return n
	}
	switch v := from.(type) {
	case *ast.NullNode:
		n.Kind = Empty
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode, *ast.StringNode:
		n.scalar(from.GetToken())
	case *ast.LiteralNode:
		n.Kind, n.Quoted = Scalar, true
		n.Text = strings.TrimSpace(v.Value.Value)
	case *ast.MappingNode:
		n.Kind, n.Pairs = Map, make([]Pair, 0, len(v.Values))
		for _, pair := range v.Values {
			n.Pairs = append(n.Pairs, p.pair(pair, level))
		}
	case *ast.MappingValueNode:
		n.Kind = Map
		n.Pairs = []Pair{p.pair(v, level)}
		n.Line, n.Column = n.Pairs[0].key.line, n.Pairs[0].key.column
	case *ast.SequenceNode:
		n.Kind, n.Items = List, make([]Node, 0, len(v.Values))
		for _, item := range v.Values {
			n.Items = append(n.Items, p.node(item, level+1))
		}
	default:
		p.refuse(from.GetToken(), "this form of YAML is not read", "write key: value, lists and plain values only")
	}
	return n
}

func (n *Node) scalar(t *token.Token) {
	n.Kind = Scalar
	n.Text = strings.TrimSpace(t.Value)
	n.Quoted = t.Type == token.SingleQuoteType || t.Type == token.DoubleQuoteType
}

// pair copies a key and its value. A key that the library takes for null, such
// as ~, is text like any other key.
func (p *parse) pair(from *ast.MappingValueNode, level int) Pair {
	key := Node{}
	key.Line, key.Column = p.place(from.Key.GetToken())
	switch from.Key.(type) {
	case *ast.NullNode, *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode, *ast.StringNode:
		key.scalar(from.Key.GetToken())
		key.Text = p.word(key.Text)
	default:
		p.refuse(from.Key.GetToken(), "a key must be a plain word or number", "write key: value")
	}
	value := p.node(from.Value, level+1)
	if value.Line == 0 || value.Kind == Empty {
		value.Line, value.Column = key.Line, key.Column
	}
	return Pair{word{key.Text, key.Quoted, key.Line, key.Column}, value}
}

// word returns the text of a key, kept once for all keys alike; of very many different ones
// the rest are kept as they come.
func (p *parse) word(text string) string {
	const most = 1000
	if known, is := p.keys[text]; is {
		return known
	}
	if p.keys != nil && len(p.keys) < most {
		p.keys[text] = text
	}
	return text
}

// place returns line and column of a token, counted in characters from 1. The
// library's column is off where blanks follow a value, so the value is looked
// for to the left and right of it in its line.
func (p *parse) place(t *token.Token) (line, column int) {
	if t == nil || t.Position == nil {
		return 1, 1
	}
	line, column = p.lineOf(max(t.Position.Line, 1)), max(t.Position.Column, 1)
	first, _, _ := strings.Cut(strings.TrimSpace(t.Origin), "\n")
	if line > len(p.lines) || first == "" {
		return line, column
	}
	if p.current != line { // tokens come line by line: keep the letters of one
		p.current, p.letters = line, []rune(p.lines[line-1])
	}
	const farthest = 200 // characters; further off it would be another value
	wanted := []rune(first)
	for off := range farthest {
		if p.standsAt(column-off, wanted) {
			return line, column - off
		}
		if p.standsAt(column+off, wanted) {
			return line, column + off
		}
	}
	return line, column
}

// standsAt reports whether the wanted letters stand at a column of the line.
func (p *parse) standsAt(column int, wanted []rune) bool {
	at := column - 1
	return at >= 0 && at+len(wanted) <= len(p.letters) && slices.Equal(p.letters[at:at+len(wanted)], wanted)
}
