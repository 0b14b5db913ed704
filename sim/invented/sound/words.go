package sound

import (
	"os"
	"strconv"
	"strings"
	"testing"
)

// Words are the words of a format, in the order of their file.
type Words []string

// firstWord is the byte that stands for the first word. What is below stands for itself.
const firstWord = 0x80

// ReadWords reads the words of a format: a word a line, quoted as in Go where it begins with
// a quotation mark.
func ReadWords(t testing.TB, file string) (all Words) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimRight(string(text), "\n"), "\n") {
		if strings.HasPrefix(line, `"`) {
			if line, err = strconv.Unquote(line); err != nil {
				t.Fatalf("%s: %v", file, err)
			}
		}
		all = append(all, line)
	}
	return all
}

// spell makes a text of bytes: the bytes of ASCII stand for themselves, each of the 128 above
// for a word, or two of them where the words are more.
func (w Words) spell(from []byte) []byte {
	var text []byte
	for i := 0; i < len(from); i++ {
		if from[i] < firstWord {
			text = append(text, from[i])
			continue
		}
		at := int(from[i] - firstWord)
		if len(w) > firstWord && i+1 < len(from) {
			i++
			at += int(from[i]) * firstWord
		}
		text = append(text, w[at%len(w)]...)
	}
	return text
}

// Fuzz searches for inputs of a reader of texts: texts as they are, and texts spelled from
// the words of its format. What of the texts is a word becomes one in a second start of the search.
func (w Words) Fuzz(f *testing.F, starts []string, ask func(t *testing.T, text []byte)) {
	f.Helper()
	for _, start := range starts {
		f.Add([]byte(start), false)
		f.Add(w.shorten(start), true)
	}
	f.Fuzz(func(t *testing.T, text []byte, spelled bool) {
		if spelled {
			text = w.spell(text)
		}
		Soon(func() { ask(t, text) })
	})
}

// shorten is a text that spell makes the given one of, so far as that is ASCII.
func (w Words) shorten(text string) (short []byte) {
	for text != "" {
		word, at := w.longest(text)
		switch {
		case word == "":
			if text[0] < firstWord {
				short = append(short, text[0])
			}
			text = text[1:]
			continue
		case len(w) > firstWord:
			short = append(short, firstWord+byte(at%firstWord), byte(at/firstWord))
		default:
			short = append(short, firstWord+byte(at))
		}
		text = text[len(word):]
	}
	return short
}

// longest returns the longest word of at least three letters that begins a text, and its place.
func (w Words) longest(text string) (word string, at int) {
	const least = 3
	for i, one := range w {
		if len(one) >= least && len(one) > len(word) && strings.HasPrefix(text, one) {
			word, at = one, i
		}
	}
	return word, at
}
