package main

import (
	"fmt"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"fencerow/program"
)

// longest is the number of words that a sentence for people may have.
const longest = 25

// units cuts a text of the terminal into what is read in one go: paragraphs, points of a
// list, headings, messages. A row of a table, an underline and a command line are none.
func units(text string) (all []string) {
	open := ""
	closeUnit := func() {
		if open != "" {
			all = append(all, open)
		}
		open = ""
	}
	for _, line := range strings.Split(text, "\n") {
		plain := strings.TrimSpace(line)
		switch {
		case plain == "" || underline.MatchString(line):
			closeUnit()
		case tableRow.MatchString(line) || command.MatchString(line):
			closeUnit()
		case strings.HasPrefix(line, "- ") || strings.HasPrefix(line, "* ") || talk.MatchString(line):
			closeUnit()
			open = talk.ReplaceAllString(strings.TrimPrefix(line, "- "), "")
		default:
			open = strings.TrimSpace(open + " " + plain)
		}
	}
	closeUnit()
	return all
}

var (
	underline = regexp.MustCompile(`^[=-]+$`)
	tableRow  = regexp.MustCompile(`^ .*\S {2,}\S|\S {2,}\S+.* {2,}\S`) // indented with a gap between columns, or with two gaps
	command   = regexp.MustCompile(`^ *(fencerow (compare|explain|check|base|batch|county|market|new|handout|replay|rules|score)|--\S+=|- \{)`)
	talk      = regexp.MustCompile(`^fencerow: (error|hint|note): `)
)

// pageUnits cuts a page: each element that stands by itself, a cell of a table too.
func pageUnits(source string) (all []string) {
	_, body, _ := strings.Cut(source, "</style>")
	body = regexp.MustCompile(`(?s)<style.*?</style>|<script.*?</script>`).ReplaceAllString(body, "")
	body = regexp.MustCompile(`</?(b|i|em|strong|span|a|code|small|sup)( [^>]*)?>`).ReplaceAllString(body, "")
	for _, unit := range regexp.MustCompile(`<[^>]*>`).Split(body, -1) {
		if unit = strings.Join(strings.Fields(html.UnescapeString(unit)), " "); unit != "" {
			all = append(all, unit)
		}
	}
	return all
}

// sentences cuts a unit at full stops, question and exclamation marks. What is cited or
// typed, not read, is left out before: the source at the end of a flag, paragraphs of the
// law in brackets, addresses, a line to copy into a file, names of files.
func sentences(unit string) (all []string) {
	for _, left := range leftOut {
		unit = left.ReplaceAllString(unit, "")
	}
	start := 0
	for _, at := range ends.FindAllStringIndex(unit, -1) {
		before := unit[start : at[0]+1]
		if !shortened.MatchString(before) {
			all = append(all, strings.TrimSpace(before))
			start = at[1] - 1
		}
	}
	if rest := strings.TrimSpace(unit[start:]); rest != "" {
		all = append(all, rest)
	}
	return all
}

var (
	ends      = regexp.MustCompile(`[.?!][")]? +["(\[A-Z0-9]`)
	shortened = regexp.MustCompile(`(?:^|[ (])(?:[A-Z]|P\.L|U\.S|U\.S\.C|sec|secs|p|No|Nos|vs|St|e\.g|i\.e|ch|v)\.$`)
	leftOut   = []*regexp.Regexp{
		regexp.MustCompile(`^\S+ line \d+( column \d+)?: `), // the place in a file
		regexp.MustCompile(` *\bSources?: .*$`),
		regexp.MustCompile(` *\((?:[^()]|\([^()]*\))*(?:\d+ (?:U\.S\.C\.|CFR|FR) |P\.L\. )(?:[^()]|\([^()]*\))*\)`),
		regexp.MustCompile(`https?://\S+[^ .,]`),
		regexp.MustCompile(`-? *\{.*\}`),
	}
)

// longBy is how many words a sentence has; a list of all keys that can stand at a place of a
// file, and one of crops in counties with their codes, is one.
func longBy(sentence string) int {
	return wordsIn(inCounties.ReplaceAllString(keys.ReplaceAllString(sentence, "can be these"), ": these"))
}

var (
	keys       = regexp.MustCompile(`can be (?:[a-z0-9_]+, )+[a-z0-9_]+`)
	inCounties = regexp.MustCompile(`: [a-z ,]+ in [^,:()]+ \(\d{5}\)(?:, [a-z ,]+ in [^,:()]+ \(\d{5}\))+`)
)

// wordsIn counts the words of a sentence: what has a letter or a digit.
func wordsIn(sentence string) (n int) {
	for _, word := range strings.Fields(sentence) {
		if strings.IndexFunc(word, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) >= 0 {
			n++
		}
	}
	return n
}

// isSentence tells a sentence from a label or a number: it ends with a mark, or has eight
// words.
func isSentence(text string) bool {
	ended := strings.HasSuffix(strings.TrimRight(text, `")`), ".") || strings.HasSuffix(text, "?")
	return ended && wordsIn(text) > 1 || wordsIn(text) >= 8
}

// lengths are the numbers of words of sentences.
type lengths []int

// String gives how many, their mean, their 90th percentile (nearest rank), and the share
// over longest.
func (l lengths) String() string {
	if len(l) == 0 {
		return "no sentence"
	}
	l = slices.Sorted(slices.Values(l))
	sum, over := 0, 0
	for _, n := range l {
		sum += n
		if n > longest {
			over++
		}
	}
	n := float64(len(l))
	return fmt.Sprintf("%5d sentences, mean %s words, 90th percentile %2d, over %d words %s percent, longest %d",
		len(l), program.Text(float64(sum)/n, 1), l[(len(l)*9+9)/10-1], longest, program.Text(100*float64(over)/n, 1), l[len(l)-1])
}

// Sentences are cut where they end, and what is only cited is not counted.
func TestSentencesAreCut(t *testing.T) {
	for text, want := range map[string][]int{
		"One two. Three four five? Six.":                                         {2, 3, 1},
		"It is law (P.L. 119-21, sec. 10303, print p. 19-20). Ask.":              {3, 1},
		"warning: [a_code] Base is 4.55 a bushel. Source: 7 CFR 1400.106(d). x.": {7},
		"As 7 U.S.C. 9016(e) has it, nothing is due.":                            {9},
		"Save https://www.usda.gov/a.csv. Then 2 come.":                          {1, 3},
		"Type: {format: a, b: c}":                                                {1},
		"In 62 of 100 outcomes - so it is - ARC-CO pays more":                    {11},
	} {
		var got []int
		for _, s := range sentences(text) {
			got = append(got, wordsIn(s))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v: %q", text, got, want, sentences(text))
		}
	}
	if got := longBy("Did you mean corn? It can be corn, soybeans, seed_cotton"); got != 8 {
		t.Errorf("a list of keys: %d words, want 8", got)
	}
	if got := longBy("They are not FSA's: corn and oats in Alder County (99001), corn in Birch County (99003)."); got != 5 {
		t.Errorf("a list of crops in counties: %d words, want 5", got)
	}
	text := "Head\n====\n\nTwo lines\nof text.\n  corn  1.00  2\n- a point\n  goes on\n- another\n\nfencerow: hint: do this\n  fencerow compare --demo\n"
	if got, want := units(text), []string{"Head", "Two lines of text.", "a point goes on", "another", "do this"}; !slices.Equal(got, want) {
		t.Errorf("units %q, want %q", got, want)
	}
	if got, want := pageUnits("</style><p>One <b>two</b>.</p><td>3</td>"), []string{"One two.", "3"}; !slices.Equal(got, want) {
		t.Errorf("units of a page %q, want %q", got, want)
	}
}
