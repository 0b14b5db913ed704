package main

import (
	"os"
	"strings"
	"testing"

	"fencerow/io/batch"
	"fencerow/io/read/county"
	"fencerow/io/read/market"
	"fencerow/io/read/operation"
	"fencerow/io/show/terminal"
	"fencerow/sim/answer"
)

// TestDocumentedFormats: docs/formats.md names each format with the number that the program
// reads or writes (docs/stability.md: a number rises where old files would be read
// differently).
func TestDocumentedFormats(t *testing.T) {
	text, err := os.ReadFile(root + "/docs/formats.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, format := range []string{
		operation.Format, county.Format, market.Format, batch.AuditFormat, answer.ComparisonFormat, answer.ExplanationFormat, answer.RulesFormat, answer.CheckFormat,
		terminal.ErrorFormat, answer.ReplayFormat, answer.NewBaseFormat, answer.CountyFormat, answer.MarketFormat, answer.ScoreFormat, answer.HandoutFormat,
	} {
		if !strings.Contains(string(text), "`"+format+"`") {
			t.Errorf("docs/formats.md does not name %s", format)
		}
	}
}
