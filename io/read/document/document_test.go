package document_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/io/read/document"
	"fencerow/program/farm"
)

// A value is its characters, whatever YAML would make of them: a farm number is
// no octal number.
func TestValuesStayAsTyped(t *testing.T) {
	for _, typed := range []string{"0417", "1e5", "1_000", "0x1F", ".5", "0o17", "0b1", "01001", "08063", "+7", "-0", "1.50", "no", "True", "2026-11-10", ".inf", ".NaN", "12:30", "99003A"} {
		for _, text := range []string{"a: " + typed + "\n", "a:   " + typed + "   \n", "a: " + typed + " # note\n", "a: '" + typed + "'\n", "a: \"" + typed + "\"\r\nb: 1\r\n", "a: {b: " + typed + "}\n", "a: [" + typed + "]\n", "a:\n  - " + typed + "\n", "{\"a\": \"" + typed + "\"}"} {
			root, err := document.Parse("t.yaml", []byte(text))
			if err != nil {
				t.Errorf("%q: %v", text, err)
				continue
			}
			v := root.Get("a")
			if v.Kind == document.Map {
				v = v.Get("b")
			}
			if v.Kind == document.List {
				v = v.Items[0]
			}
			if v.Kind != document.Scalar || v.Text != typed {
				t.Errorf("%q: value is %q of kind %d, want %q", text, v.Text, v.Kind, typed)
			}
			if v.Quoted != strings.ContainsAny(text, `'"`) {
				t.Errorf("%q: quoted is %v", text, v.Quoted)
			}
		}
		key := document.Node{}
		root, err := document.Parse("t.yaml", []byte(typed+": 1\n"))
		if err == nil {
			key = root.Pairs[0].Key()
		}
		if key.Text != typed {
			t.Errorf("key %q is read as %q (%v)", typed, key.Text, err)
		}
	}
}

// Line and column are those an editor shows, with Windows line ends, a byte
// order mark, trailing blanks and letters of several bytes.
func TestPlaces(t *testing.T) {
	text := "\ufeff# a note\r\na: één   \r\n\r\nb:   x   \r\nc:\r\n  - {d: ü, e: y}\r\nf: \"q\"  # z\r\n"
	root, err := document.Parse("t.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	item := root.Get("c").Items[0]
	for _, c := range []struct {
		what         string
		node         document.Node
		line, column int
	}{
		{"a", root.Get("a"), 2, 4}, {"b", root.Get("b"), 4, 6}, {"item", item, 6, 5}, {"d", item.Get("d"), 6, 9}, {"e", item.Get("e"), 6, 15}, {"f", root.Get("f"), 7, 4},
	} {
		if c.node.Line != c.line || c.node.Column != c.column {
			t.Errorf("%s stands at %d:%d, want %d:%d", c.what, c.node.Line, c.node.Column, c.line, c.column)
		}
	}
}

// Numbers are plain decimals; the rest is refused, never guessed.
func TestNumbers(t *testing.T) {
	for typed, want := range map[string]float64{"150": 150, "0.35": 0.35, ".5": 0.5, "5.": 5, "007": 7, "0417": 417, "+3": 3, "-20": -20, "120.00": 120} {
		if got, err := number(typed); err != nil || got != want {
			t.Errorf("%s = %v, %v; want %v", typed, got, err, want)
		}
	}
	for _, typed := range []string{"1e5", "1_000", "0x1F", "0o17", ".inf", ".nan", "Infinity", "1.2.3", "'5'", "five", "--5", "1 000", "1 / 2", "5%", "٣"} {
		if got, err := number(typed); err == nil {
			t.Errorf("%s = %v, want a refusal", typed, got)
		}
	}
}

func number(typed string) (float64, error) {
	root, err := document.Parse("t.yaml", []byte("a: "+typed+"\n"))
	if err != nil {
		return 0, err
	}
	r := document.NewReader("t.yaml")
	got, _ := r.Number(root.Get("a"), "a")
	return got, r.Err()
}

// What a person cannot have meant, or what would exhaust the machine, is one
// mistake.
func TestRefusedTexts(t *testing.T) {
	for what, text := range map[string]string{
		"deep brackets":     "a: " + strings.Repeat("[", 100_000),
		"deep braces":       strings.Repeat("{a: ", 100_000),
		"deep dashes":       strings.Repeat("- ", 100_000) + "a",
		"keys without end":  keys(document.MostKeys + 1),
		"deep indentation":  indented(100),
		"alias":             "a: *x\n",
		"anchor":            "a: &x 1\n",
		"merge key":         "a:\n  <<: {b: 1}\n",
		"tag":               "a: !!float 1\n",
		"directive":         "%YAML 1.2\n---\na: 1\n",
		"composed key":      "? a\n: 1\n",
		"two documents":     "a: 1\n---\nb: 1\n",
		"not text":          "PK\x03\x04\x00\x00",
		"not UTF-8":         "a: \xff\n",
		"unfinished quote":  "a: \"b\n",
		"more than allowed": strings.Repeat("#", document.MostBytes+1),
	} {
		_, err := document.Parse("t.yaml", []byte(text))
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || len(mistakes) != 1 && what != "deep indentation" || mistakes[0].Hint == "" || mistakes[0].Line < 1 {
			t.Errorf("%s: error %v, want one mistake with a hint", what, err)
		}
	}
}

func keys(count int) string {
	var text strings.Builder
	for i := range count {
		fmt.Fprintf(&text, "k%d: 1\n", i)
	}
	return text.String()
}

func indented(levels int) string {
	var text strings.Builder
	for i := range levels {
		text.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return text.String()
}

// A file that cannot be opened is a mistake with a hint, too.
func TestLoad(t *testing.T) {
	large := filepath.Join(t.TempDir(), "large.yaml")
	if err := os.WriteFile(large, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(large, document.MostBytes+1); err != nil {
		t.Fatal(err)
	}
	for path, reason := range map[string]string{filepath.Join(t.TempDir(), "none.yaml"): "the file does not exist", t.TempDir(): "this is a folder, not a file", large: "the file has 16 MiB"} {
		_, err := document.Load(path)
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || mistakes[0].Reason != reason || mistakes[0].Hint == "" || mistakes[0].File != path {
			t.Errorf("%s: %v, want %q with a hint", path, err, reason)
		}
	}
}
