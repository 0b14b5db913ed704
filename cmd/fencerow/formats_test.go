package main

import (
	"os"
	"strings"
	"testing"

	"fencerow/io/about"
	"fencerow/io/batch"
	"fencerow/io/read/corrections"
	"fencerow/io/read/county"
	"fencerow/io/read/farmtable"
	"fencerow/io/read/market"
	"fencerow/io/read/operation"
	"fencerow/io/show/terminal"
	"fencerow/sim/answer"
	"fencerow/sim/backtest"
	"fencerow/sim/explain"
	"fencerow/sim/flag"
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
		operation.Format, operation.InsuranceFormat, farmtable.ProfileFormat, county.Format, market.Format, batch.AuditFormat, answer.ComparisonFormat, explain.ExplanationFormat, explain.RulesFormat, flag.CheckFormat,
		terminal.ErrorFormat, explain.ReplayFormat, explain.NewBaseFormat, explain.CountyFormat, explain.MarketFormat, marketImportFormat, backtest.Format, explain.HandoutFormat, about.Format, corrections.Format,
	} {
		if !strings.Contains(string(text), "`"+format+"`") {
			t.Errorf("docs/formats.md does not name %s", format)
		}
	}
}
