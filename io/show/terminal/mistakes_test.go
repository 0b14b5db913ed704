package terminal

import (
	"bytes"
	"encoding/json"
	"testing"

	"fencerow/program/farm"
)

// A mistake says where it is as far as that is known, and what to do where there is a word.
func TestWriteMistakes(t *testing.T) {
	mistakes := farm.Mistakes{{File: "farm.yaml", Line: 14, Column: 27, Value: "-20", Reason: "base acres is -20", Hint: "copy them"}, {File: "farm.csv", Line: 2, Reason: "is blank"}, {File: "x.yaml", Reason: "is gone"}, {Reason: "alone"}}
	var out bytes.Buffer
	WriteMistakes(&out, mistakes)
	const want = "fencerow: error: farm.yaml line 14 column 27: base acres is -20\nfencerow: hint: copy them\nfencerow: error: farm.csv line 2: is blank\nfencerow: error: x.yaml: is gone\nfencerow: error: alone\n"
	if out.String() != want {
		t.Errorf("%s\nwant\n%s", out.String(), want)
	}
	text, err := json.Marshal(ErrorOf(mistakes[3:]))
	var back Error
	if err != nil || json.Unmarshal(text, &back) != nil || back.Format != ErrorFormat || len(back.Mistakes) != 1 || back.Mistakes[0].Reason != "alone" {
		t.Errorf("%s, %v", text, err)
	}
}

// On no terminal a bar is nothing: nothing is written, and nothing panics.
func TestNoBarInLogs(t *testing.T) {
	var out bytes.Buffer
	for _, bar := range []Progress{{}, NewProgress(&out, 3, "counties"), NewRowProgress(&out, 3)} {
		bar.Reach(2)
		bar.Done()
	}
	if out.Len() > 0 {
		t.Errorf("%q was written", out.String())
	}
}
