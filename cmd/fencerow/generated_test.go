package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"fencerow/program/law"
)

const lawTable = root + "/docs/law/figures.md"

// TestLawTable: docs/law/figures.md is made from program/law, never typed.
// Renew it with -update.
func TestLawTable(t *testing.T) {
	want := lawTableText()
	if *update {
		if err := os.WriteFile(lawTable, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(lawTable)
	if err != nil || string(got) != want {
		t.Errorf("%s is not what program/law says (%v): renew it with go test ./cmd/fencerow -run TestLawTable -update", lawTable, err)
	}
}

func lawTableText() string {
	var b strings.Builder
	b.WriteString("# The law's figures\n\nMade from `program/law` by `go test ./cmd/fencerow -run TestLawTable -update`; do not edit.\n\n")
	b.WriteString("| figure | commodity | crop years | value | unit | status | source | note |\n|---|---|---|---|---|---|---|---|\n")
	for _, id := range law.IDs() {
		for _, row := range law.Rows(id) {
			commodity := row.Commodity
			if commodity == "" {
				commodity = "all"
			}
			fmt.Fprintf(&b, "| %s | %s | %d-%d | %s | %s | %s | %s | %s |\n", id, commodity, row.First, row.Last, row.Text, row.Unit, row.Status, row.Citation(), row.Note)
		}
	}
	b.WriteString("\n## Sources\n\n| source | title | publisher | date | address | accessed |\n|---|---|---|---|---|---|\n")
	for _, s := range law.Sources() {
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s |\n", s.Key, s.Title, s.Publisher, s.Date, s.Address, s.Accessed)
	}
	return b.String()
}

// TestReadmeSession: the session in the README is what the program prints. A
// line "..." stands for what is left out at the end.
func TestReadmeSession(t *testing.T) {
	readme, err := os.ReadFile(root + "/README.md")
	if err != nil {
		t.Fatal(err)
	}
	const prompt = "$ go run ./cmd/fencerow "
	sessions := 0
	for _, block := range strings.Split(string(readme), "```")[1:] {
		_, session, found := strings.Cut(block, prompt)
		if !found {
			continue
		}
		command, want, _ := strings.Cut(session, "\n")
		want, cut := strings.CutSuffix(strings.TrimRight(want, "\n"), "\n...")
		var stdout, stderr bytes.Buffer
		if code := run(strings.Fields(command), &stdout, &stderr); code != exitDone {
			t.Fatalf("%s: exit %d: %s", command, code, stderr.String())
		}
		got := strings.TrimRight(stdout.String(), "\n")
		if cut && !strings.HasPrefix(got, want) || !cut && got != want {
			t.Errorf("the README's session of %q is not what the program prints; it prints:\n%s", command, got[:min(len(got), len(want)+200)])
		}
		sessions++
	}
	if sessions == 0 {
		t.Error("the README shows no session")
	}
}
