package document

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"fencerow/program/farm"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// MostBytes is the size above which a file is not read: a file of 10,000 farms
// has about 2 MiB, and more belong in a table.
const MostBytes = 16 << 20

// MostKeys is how many keys one map written line by line may have. The library
// needs time with the square of them.
const MostKeys = 2000

// mostMarks is how many values, brackets, commas and lines of one text are read. What is kept
// of each takes some 100 bytes. A file of 10,000 farms has some 300,000.
const mostMarks = 400_000

// mostEmpty is how many entries of lists may have nothing in them. The library needs time
// with the square of them.
const mostEmpty = 1000

// mostLevels is how deep maps and lists may be nested; a farm file needs seven.
const mostLevels = 40

// Load returns the bytes of a file. A file that is missing, no file or too
// large is refused with farm.Mistakes.
func Load(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, refusal(path, "the file does not exist", "check the name and the folder. County and market files are looked for in the folder of the operation file")
	case err != nil:
		return nil, refusal(path, "the file cannot be opened: "+err.Error(), "check that you may read it")
	case info.IsDir():
		return nil, refusal(path, "this is a folder, not a file", "name one file in it")
	case info.Size() > MostBytes:
		return nil, tooLarge(path, info.Size())
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, refusal(path, "the file cannot be read: "+err.Error(), "check that you may read it")
	}
	defer file.Close()
	text, large, err := ReadAll(file)
	switch {
	case err != nil:
		return nil, refusal(path, "the file cannot be read: "+err.Error(), "check that you may read it")
	case large:
		return nil, tooLarge(path, int64(len(text)))
	}
	return text, nil
}

// ReadAll reads a text of up to MostBytes: a device or a pipe does not say beforehand how
// much it gives. large is true where there is more.
func ReadAll(from io.Reader) (text []byte, large bool, err error) {
	text, err = io.ReadAll(io.LimitReader(from, MostBytes+1))
	return text, len(text) > MostBytes, err
}

func refusal(file, reason, hint string) farm.Mistakes {
	return farm.Mistakes{{File: file, Line: 1, Column: 1, Reason: reason, Hint: hint}}
}

func tooLarge(file string, size int64) farm.Mistakes {
	return refusal(file, fmt.Sprintf("the file has %d MiB", size>>20),
		fmt.Sprintf("at most %d MiB are read; split it, or put the farms into a table and use batch", MostBytes>>20))
}

// Parse returns the tree of a YAML text. A byte order mark and Windows line
// ends are accepted. A text that is not YAML, or uses what this package
// refuses, is an error of type farm.Mistakes with line and column.
func Parse(file string, text []byte) (root Node, err error) {
	if len(text) > MostBytes {
		return Node{}, tooLarge(file, int64(len(text)))
	}
	p := &parse{file: file, keys: map[string]string{}}
	source := strings.TrimPrefix(string(text), "\ufeff")
	source = strings.ReplaceAll(strings.ReplaceAll(source, "\r\n", "\n"), "\r", "\n")
	if strings.ContainsRune(source, 0) || !validText(source) {
		return Node{}, refusal(file, "the file is not UTF-8 text", "save it as UTF-8 text; a workbook or a Word document cannot be read here")
	}
	if marks(source) > mostMarks {
		return Node{}, refusal(file, fmt.Sprintf("the file has more than %d values, brackets, commas and lines", mostMarks), "split it, or put the farms into a table and use batch")
	}
	p.lines = strings.Split(source, "\n")
	// The YAML library may panic on text no person writes; that is a refusal too.
	defer func() {
		if fault := recover(); fault != nil {
			root, err = Node{}, refusal(file, "the file is not readable as YAML", "look for unusual characters or indentation")
		}
	}()
	if marks(source) <= mostPiece && len(source) <= mostPieceBytes {
		root, _ = p.tree(source)
	} else {
		root = p.inPieces()
	}
	if len(p.mistakes) > 0 {
		return Node{}, p.mistakes
	}
	return root, nil
}

// marks counts what makes tokens of a text, at least as many as it has values.
func marks(source string) (count int) {
	for i := range len(source) {
		switch source[i] {
		case '\n', ',', '[', ']', '{', '}', '#', '?':
			count++
		case ':', '-':
			if i+1 == len(source) || strings.IndexByte(" \n\t,[]{}", source[i+1]) >= 0 {
				count++
			}
		}
	}
	return count
}

func validText(source string) bool { return strings.ToValidUTF8(source, "") == source }

// parse is one reading of a text.
type parse struct {
	file     string
	lines    []string
	mistakes farm.Mistakes
	piece    piece             // that is read; the zero piece: the whole text
	empty    int               // entries of lists with nothing in them
	keys     map[string]string // the words of keys, each once
	current  int               // line whose letters are kept, from 1; 0: none
	letters  []rune            // of that line
}

func (p *parse) refuse(t *token.Token, reason, hint string) {
	line, column := p.place(t)
	p.mistakes = append(p.mistakes, farm.Mistake{File: p.file, Line: line, Column: column, Value: shorten(strings.TrimSpace(t.Value)), Reason: reason, Hint: hint})
}

// refuseTokens refuses, before the tree is built, what a farm file may not use.
func (p *parse) refuseTokens(tokens token.Tokens) {
	flow, entries, line := 0, 0, 0 // open brackets; list dashes on this line
	maps, before := openMaps{}, (*token.Token)(nil)
	for _, t := range tokens {
		if before != nil && before.Type == token.SequenceEntryType && t.Position.Line > before.Position.Line && t.Position.Column <= before.Position.Column {
			if p.empty++; p.empty > mostEmpty {
				p.refuse(t, fmt.Sprintf("more than %d entries of lists are empty", mostEmpty), "leave the empty lines with a dash out")
				return
			}
		}
		before = t
		first := t.Position.Line != line
		if first {
			entries, line = 0, t.Position.Line
		}
		switch t.Type {
		case token.MappingStartType, token.SequenceStartType:
			flow++
		case token.MappingEndType, token.SequenceEndType:
			flow--
		case token.SequenceEntryType:
			entries++
		default:
			p.refuseType(t)
		}
		if flow > mostLevels || entries > mostLevels {
			p.refuse(t, fmt.Sprintf("maps and lists are nested deeper than %d levels", mostLevels), "look for a bracket that is not closed")
			return
		}
		if first && flow == 0 && t.Type != token.CommentType && maps.line(t) > MostKeys {
			p.refuse(t, fmt.Sprintf("more than %d keys stand under each other", MostKeys), "many farms belong in a list, each with a dash, or in a table for batch")
			return
		}
	}
}

// refuseType refuses tokens that mean something else than a reader would think.
func (p *parse) refuseType(t *token.Token) {
	switch t.Type {
	case token.AnchorType, token.AliasType, token.MergeKeyType:
		p.refuse(t, "anchors (&), aliases (*) and merge keys (<<) are not read", "write the value out in full where it belongs. Put text that begins with & or * in quotes")
	case token.TagType:
		p.refuse(t, "a tag ("+t.Value+") is not read", "leave it out; put text that begins with ! in quotes")
	case token.DirectiveType:
		p.refuse(t, "a YAML directive (%) is not read", "leave the line out")
	case token.MappingKeyType:
		p.refuse(t, "a composed key (?) is not read", "write key: value")
	}
}

// openMaps counts the lines that begin in one column below each other, for each
// column further left than the last line: the keys of the maps now open.
type openMaps []struct{ column, lines int }

// line adds the first token of a line and returns the count of its column.
// Dashes of a list close the maps right of them and are not counted.
func (o *openMaps) line(t *token.Token) int {
	column := t.Position.Column
	for len(*o) > 0 && (*o)[len(*o)-1].column > column {
		*o = (*o)[:len(*o)-1]
	}
	if t.Type == token.SequenceEntryType {
		return 0
	}
	if len(*o) == 0 || (*o)[len(*o)-1].column < column {
		*o = append(*o, struct{ column, lines int }{column, 0})
	}
	(*o)[len(*o)-1].lines++
	return (*o)[len(*o)-1].lines
}

// syntax turns the library's error into one mistake.
func (p *parse) syntax(err error) farm.Mistakes {
	hint := "look at this line and the one above. Indent by spaces, put a colon and a blank after each key, close quotes and brackets"
	var known yaml.Error
	if !errors.As(err, &known) || known.GetToken() == nil {
		return refusal(p.file, "the file is not YAML: "+shorten(err.Error()), hint)
	}
	t := known.GetToken()
	line, column := p.place(t)
	if line <= len(p.lines) && strings.Contains(indentOf(p.lines[line-1]), "\t") {
		hint = "a tab stands at the start of the line: indent by spaces"
	}
	return farm.Mistakes{{File: p.file, Line: line, Column: column, Value: shorten(strings.TrimSpace(t.Value)), Reason: "the file is not YAML here: " + known.GetMessage(), Hint: hint}}
}

func indentOf(line string) string {
	return line[:len(line)-len(strings.TrimLeft(line, " \t"))]
}

// firstToken returns the token a value begins with. The library gives a map
// the token of its first colon.
func firstToken(from ast.Node) *token.Token {
	if m, ok := from.(*ast.MappingNode); ok && !m.IsFlowStyle && len(m.Values) > 0 {
		return m.Values[0].Key.GetToken()
	}
	return from.GetToken()
}

// documents returns the one document of the file.
func (p *parse) documents(tree *ast.File) Node {
	root, found := Node{Line: 1, Column: 1}, false
	for _, document := range tree.Docs {
		if document.Body == nil {
			continue
		}
		if found {
			p.refuse(firstToken(document.Body), severalDocuments, oneDocument)
			return root
		}
		root, found = p.node(document.Body, 0), true
	}
	return root
}
