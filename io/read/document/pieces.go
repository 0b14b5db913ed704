package document

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"

	"fencerow/program/farm"
)

// The library keeps some 800 bytes for each value, bracket, comma and line of a text, and
// some 25 for each byte of a long value, until all is read. So it is given a large text in
// pieces: the top level, and the entries of its lists some at a time.
const (
	mostPiece       = 40_000    // marks of one piece: of a text that is not divided, or of one entry of a list
	mostPieceBytes  = 512 << 10 // the same in bytes
	usualPiece      = 2500      // marks after which a piece ends
	usualPieceBytes = 64 << 10  // the same in bytes
)

// piece is a part of a text that the library reads by itself.
type piece struct {
	head  int // line of the key whose list the entries belong to, from 1; 0: lines of the top level
	first int // line of the first of its lines, from 1
	lines int // how many lines it has, but for the head
	items int // entries of the whole list; 0: an earlier piece of it came before
}

// listHead is a line of the top level that may have a list below it.
var listHead = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_-]*:[ \t]*(#.*)?$`)

// divided returns the pieces of the lines of a text, in their order. Nothing but the lines'
// indentation is looked at: what spans entries of a list against it is torn apart, and then
// refused by the library.
func divided(lines []string) (all []piece) {
	for at := 0; at < len(lines); {
		if lead, is := listBelow(lines, at); is {
			list := entries(lines, at, lead)
			all = append(all, list...)
			last := list[len(list)-1]
			at = last.first - 1 + last.lines
			continue
		}
		if n := len(all); n == 0 || all[n-1].head > 0 {
			all = append(all, piece{first: at + 1})
		}
		all[len(all)-1].lines++
		at++
	}
	return all
}

// listBelow reports whether a line is a key with a list below it, and what its entries begin
// with before their dash.
func listBelow(lines []string, at int) (lead string, is bool) {
	if !listHead.MatchString(lines[at]) {
		return "", false
	}
	for _, line := range lines[at+1:] {
		if rest := strings.TrimLeft(line, " "); rest != "" && rest[0] != '#' {
			lead = line[:len(line)-len(rest)]
			return lead, isEntry(line, lead)
		}
	}
	return "", false
}

// isEntry reports whether a line begins an entry of the list whose dashes stand behind lead.
func isEntry(line, lead string) bool {
	rest, is := strings.CutPrefix(line, lead+"-")
	return is && (rest == "" || rest[0] == ' ')
}

// entries returns the pieces of a list, whose key is the line at.
func entries(lines []string, at int, lead string) (all []piece) {
	marked, size, items := 0, 0, 0
	for i := at + 1; i < len(lines); i++ {
		line := lines[i]
		begins := isEntry(line, lead)
		if !begins && line != "" && strings.IndexByte(" \t#", line[0]) < 0 {
			break // the next key of the top level
		}
		if begins {
			items++
		}
		if n := len(all); n == 0 || begins && (marked > usualPiece || size > usualPieceBytes) {
			all, marked, size = append(all, piece{head: at + 1, first: i + 1}), 0, 0
		}
		all[len(all)-1].lines++
		marked, size = marked+marks(line)+1, size+len(line)
	}
	all[0].items = items
	return all
}

// inPieces reads a large text piece by piece.
func (p *parse) inPieces() (root Node) {
	root = Node{Kind: Map, Line: 1, Column: 1}
	if line := secondDocument(p.lines); line > 0 {
		p.mistakes = farm.Mistakes{{File: p.file, Line: line, Column: 1, Reason: severalDocuments, Hint: oneDocument}}
		return root
	}
	for _, one := range divided(p.lines) {
		p.piece = one
		end := one.first - 1 + one.lines
		text := strings.Join(p.lines[one.first-1:end], "\n")
		if end < len(p.lines) {
			text += "\n"
		}
		if marks(text) > mostPiece || len(text) > mostPieceBytes {
			p.mistakes = append(p.mistakes, farm.Mistake{File: p.file, Line: one.first, Column: 1, Reason: fmt.Sprintf("more than %d values, brackets, commas and lines, or more than %d KiB, stand together", mostPiece, mostPieceBytes>>10),
				Hint: "a large file is a list below its key, each entry with a dash on a line of its own; or put the farms into a table and use batch"})
			return root
		}
		if one.head > 0 {
			text = p.lines[one.head-1] + "\n" + text
		}
		if one.head == 0 && !says(text) {
			continue
		}
		part, ok := p.tree(text)
		if !ok {
			return root
		}
		p.add(&root, part)
	}
	if len(root.Pairs) > 0 {
		root.Line, root.Column = root.Pairs[0].Key().Line, root.Pairs[0].Key().Column
	}
	return root
}

// says reports whether a text has more than blanks, comments and marks of documents.
func says(text string) bool {
	for line := range strings.Lines(text) {
		if rest := strings.Trim(line, " \t\n"); rest != "" && rest[0] != '#' && rest != "---" && rest != "..." {
			return true
		}
	}
	return false
}

// What is wrong with a second document, and what to do.
const (
	severalDocuments = "the file holds several documents (---)"
	oneDocument      = "keep one operation, county or market in one file"
)

// secondDocument returns the line of what follows a mark of documents (--- or ...) after the
// first values; 0: there is no such line.
func secondDocument(lines []string) int {
	values, marked := false, false
	for i, line := range lines {
		switch rest := strings.TrimLeft(line, " \t"); {
		case rest == "" || rest[0] == '#':
		case strings.HasPrefix(line, "---") || strings.HasPrefix(line, "..."):
			marked = values
		case marked:
			return i + 1
		default:
			values = true
		}
	}
	return 0
}

// add adds the tree of a piece to that of the text.
func (p *parse) add(root *Node, part Node) {
	list := p.piece.head > 0
	switch n := len(root.Pairs); {
	case part.Kind != Map || list && (len(part.Pairs) != 1 || part.Pairs[0].Value.Kind != List):
		p.mistakes = append(p.mistakes, farm.Mistake{File: p.file, Line: part.Line, Column: part.Column, Reason: "the file is not YAML here: no key with a colon, or no list below it", Hint: "write key: value on the top level, and entries of a list each with a dash"})
	case list && p.piece.items == 0:
		root.Pairs[n-1].Value.Items = append(root.Pairs[n-1].Value.Items, part.Pairs[0].Value.Items...)
	default:
		if list {
			part.Pairs[0].Value.Items = append(make([]Node, 0, p.piece.items), part.Pairs[0].Value.Items...)
		}
		root.Pairs = append(root.Pairs, part.Pairs...)
	}
}

// tree reads a piece or a whole text; false: there are mistakes.
func (p *parse) tree(text string) (root Node, ok bool) {
	tokens := lexer.Tokenize(text)
	if p.refuseTokens(tokens); len(p.mistakes) > 0 {
		return Node{}, false
	}
	tree, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey()) // repeated keys are refused in Reader, with both lines
	if err != nil {
		p.mistakes = p.syntax(err)
		return Node{}, false
	}
	root = p.documents(tree)
	return root, len(p.mistakes) == 0
}

// lineOf is the line of the file that a line of the piece is.
func (p *parse) lineOf(line int) int {
	switch {
	case p.piece.first == 0:
		return line
	case p.piece.head == 0:
		return p.piece.first + line - 1
	case line == 1:
		return p.piece.head
	}
	return p.piece.first + line - 2
}
