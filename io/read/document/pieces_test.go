package document

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"fencerow/program/farm"
)

// farms is an operation of so many farms, and what may stand around its lists.
func farms(n int, lead string) string {
	var b strings.Builder
	b.WriteString("# an invented operation\nformat: fencerow/operation/1\ncrop_years: [2026]\nsettings: {a: 1, b: \"two: three\"}\nfarms: # below\n")
	for i := range n {
		fmt.Fprintf(&b, "%s- farm: \"%04d\"\n%s  county: 99001\n\n%s  note: |\n%s    - no entry\n%s    farms:\n%s  bases:\n%s    - {commodity: corn, base_acres: 120.00, payment_yield: 150}\n%s    -   commodity: wheat   # more\n%s        base_acres: 1%d\n", lead, i, lead, lead, lead, lead, lead, lead, lead, lead, i)
	}
	b.WriteString("# people\nproducers:\n  - {id: a, kind: person}\n  -\n    id: b\nsettings_2: ~\nempty:\nlast: one\n")
	return b.String()
}

// inParts reads a text in pieces, however small it is.
func inParts(text string) (Node, farm.Mistakes) {
	p := &parse{file: "x", lines: strings.Split(text, "\n")}
	return p.inPieces(), p.mistakes
}

// A text gives the same values at the same places in pieces as in one, whatever the indentation
// of its lists.
func TestPiecesGiveTheSameTree(t *testing.T) {
	for _, lead := range []string{"", "  ", "     "} {
		text := farms(700, lead)
		whole, ok := (&parse{file: "x", lines: strings.Split(text, "\n")}).tree(text)
		part, mistakes := inParts(text)
		if !ok || len(mistakes) > 0 || !reflect.DeepEqual(whole, part) {
			t.Errorf("lists behind %q: the trees differ: %v", lead, mistakes)
		}
		if n := len(divided(strings.Split(text, "\n"))); n < 4 {
			t.Errorf("%d pieces", n)
		}
	}
}

// A mistake far down a large text is named at its line, whichever piece it is in.
func TestMistakeInAPiece(t *testing.T) {
	text := farms(1500, "  ")
	for name, one := range map[string]struct{ old, changed string }{
		"anchor":          {"    - {commodity: corn, base_acres: 120.00, payment_yield: 150}\n      -   commodity: wheat   # more\n          base_acres: 11270", "    - {commodity: corn, base_acres: &a 120.00, payment_yield: 150}\n      -   commodity: wheat   # more\n          base_acres: 11270"},
		"open bracket":    {"base_acres: 11280\n", "base_acres: [11280\n"},
		"open quote":      {"base_acres: 11280\n", "base_acres: \"11280\n"},
		"tab":             {"          base_acres: 11280\n", "\t        base_acres: 11280\n"},
		"second document": {"# people\n", "---\n# people\n"},
		"anchor above":    {"last: one\n", "last: &b one\n"},
	} {
		changed := strings.Replace(text, one.old, one.changed, 1)
		if changed == text {
			t.Fatalf("%s: nothing is changed", name)
		}
		_, err := Parse("x", []byte(changed))
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		at := strings.Count(changed[:strings.Index(changed, one.changed)], "\n") + 1
		if off := mistakes[0].Line - at; off < 0 || off > 3 {
			t.Errorf("%s: line %d, want %d or little after: %v", name, mistakes[0].Line, at, mistakes[0])
		}
	}
}

// emptyEntry is an entry with nothing on its line. The library places an empty one by what follows, and takes a key
// at the same indentation into it, against YAML 1.2 (8.2.1), where the pieces are right.
var emptyEntry = regexp.MustCompile(`(?m)^ *-[ \t]*(#.*)?$`)

// said is what a tree says, without the places: those of a text on several lines the library gives by what follows.
func said(n Node) string {
	all := fmt.Sprintf("%d %v %q", n.Kind, n.Quoted, n.Text)
	for _, pair := range n.Pairs {
		all += fmt.Sprintf(" {%q %v: %s}", pair.key.text, pair.key.quoted, said(pair.Value))
	}
	for _, item := range n.Items {
		all += " [" + said(item) + "]"
	}
	return all
}

// FuzzPieces: a text that is read both in pieces and in one says the same.
func FuzzPieces(f *testing.F) {
	for _, text := range []string{farms(3, "  "), farms(2, ""), "a:\n- 'b\n- c'\n", "a:\n  - [b,\n  - c]\n", "a: |\n  - b\nb:\n # c\n - d\n", "---\na:\n  - b\n...\n", "a:\n  - b\n c\n", "a:\n  - b: >\n\n  - c\n", "a:\n- b\n-c\n- d\n", "0: 0\n -", "\v# - b:"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 10_000 || !validText(text) || strings.ContainsAny(text, "\r\x00") || emptyEntry.MatchString(text) {
			return
		}
		read := func(how func(p *parse) Node) (root Node, ok bool) {
			p := &parse{file: "x", lines: strings.Split(text, "\n")}
			defer func() {
				if recover() != nil {
					ok = false
				}
			}()
			root = how(p)
			return root, len(p.mistakes) == 0
		}
		part, read1 := read(func(p *parse) Node { return p.inPieces() })
		whole, read2 := read(func(p *parse) Node { root, _ := p.tree(text); return root })
		if read1 && read2 && whole.Kind == Map && said(part) != said(whole) {
			t.Errorf("%q: in pieces %.500v, in one %.500v", text, fmt.Sprint(part), fmt.Sprint(whole))
		}
	})
}
