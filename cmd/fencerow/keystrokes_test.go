package main

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"fencerow/io/source"
)

// mostInOneLine is how many keys the question of one farm without a file may take, Enter
// counted: a goal, for a farm with two commodities.
const mostInOneLine = 110

// longestUsualCounty has as many letters as the longest name of one county with its
// State's, of which no other name is made up.
const longestUsualCounty = "Prince George's, Maryland"

// The one line of the README asks about a farm with two commodities in few keys, whatever
// the county's name.
func TestOneLineTakesFewKeys(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(text), "\n") {
		line, _, _ = strings.Cut(strings.TrimSpace(line), "#")
		if !strings.HasPrefix(line, "fencerow compare --county ") {
			continue
		}
		typed := strings.TrimSpace(strings.Replace(line, "COUNTY, STATE", longestUsualCounty, 1)) + "\n"
		keys := utf8.RuneCountInString(typed)
		fmt.Printf("one farm without a file: checked %d keys of at most %d\n", keys, mostInOneLine)
		if keys > mostInOneLine {
			t.Errorf("%q takes %d keys", typed, keys)
		}
		return
	}
	t.Fatal("the README shows no line that begins with fencerow compare --county")
}

// mostInNew is how many keys an answer by questions may take for each base: a goal.
const mostInNew = 45

// Three farms with two bases each are answered by questions in few keys. Each line is
// typed with its Enter; the county has one practice, and the farms their own counties.
func TestNewTakesFewKeys(t *testing.T) {
	answers := ""
	for _, farm := range []string{"0417", "0588", "1203"} {
		answers += farm + "\n" + longestUsualCounty + "\ncorn\n120.55\n171\np\nsoybeans\n80.25\n47\na\n\n50\nn\n"
	}
	answers += "\n"
	asking := source.NewAsking(nil)
	for _, text := range strings.Split(strings.TrimSuffix(answers, "\n"), "\n") {
		if _, fault := asking.Answer(text); fault != nil {
			t.Fatalf("%q: %s", text, fault.Reason)
		}
	}
	if _, more := asking.Question(); more || len(asking.NotKnown()) > 0 {
		t.Fatalf("not all is answered: %v", asking.NotKnown())
	}
	const bases = 6
	keys := utf8.RuneCountInString(answers)
	fmt.Printf("three farms with six bases by questions: checked %d keys, %.1f a base, of at most %d\n", keys, float64(keys)/bases, mostInNew)
	if keys > mostInNew*bases {
		t.Errorf("%d keys", keys)
	}
}
