package main

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"
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
