package office

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"github.com/xuri/excelize/v2"
)

// exceptionColumns are those of exceptions.csv that the sheets show.
var exceptionColumns = []string{"severity", "client", "operation", "farm", "county", "crops", "crop_year", "words", "mean_after_limit", "farms", "code"}

// Sheets stand in the order in which an office works, one without lines is left out, and a
// sheet that cannot hold a whole file says so.
func TestSheetsInOrder(t *testing.T) {
	s := NewSums()
	gain := 50.0
	s.Add(Line{Client: "c", Operation: "o", Farm: "0417", County: "Alder County", Commodity: "corn", CropYear: 2026, BaseAcres: 10, Leader: "PLC", Highest: "PLC", OnRecord: "ARC-CO", Contract: "open", NewElection: true, Gain: &gain})
	s.Add(Line{Commodity: "corn", CropYear: 2026, BaseAcres: 10, Leader: "none", Contract: "signed", NewElection: true})
	for i := range mostLines + 5 {
		line := record{exceptionColumns, []string{"warning", "c", "o", fmt.Sprint(i), "Alder County", "corn", "2026", "Check it.", "12.50", "1", "flex_lease"}}
		if err := s.addException(line); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.addException(record{exceptionColumns, []string{"info", "", "", "", "", "", "2026", "Known.", "", "7", "sco_by_year"}}); err != nil {
		t.Fatal(err)
	}
	if err := s.refused.add(record{[]string{"row", "column", "value", "reason", "hint"}, []string{"3", "producer", "Ann Ash", "Ann Ash stands twice", "name her once"}}); err != nil {
		t.Fatal(err)
	}
	var written bytes.Buffer
	if err := s.WriteSummary(&written, Run{Rows: 2, Masked: true, Market: "2026-11-10", Today: "2026-11-25", Note: "Said first."}); err != nil {
		t.Fatal(err)
	}
	book, err := excelize.OpenReader(&written)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if got, want := book.GetSheetList(), []string{"Totals", "Refused rows", "Exceptions", "For many farms", "Farms that need a 2026 election", "Largest differences"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for at, want := range map[string]string{
		"Totals A2": "Said first.", "Exceptions A2": "The first 10,000 of 10,005 lines. All are in exceptions.csv.", "For many farms B4": "Known.", "For many farms A4": "Good to know",
		"Farms that need a 2026 election C4": "0417", "Farms that need a 2026 election A5": "", "Refused rows D4": "see refused.csv, which names what this sheet hides", "Refused rows C4": "", "Exceptions H5": "$13",
	} {
		sheet, cell := at[:len(at)-3], at[len(at)-2:]
		if got, err := book.GetCellValue(sheet, cell); got != want || err != nil {
			t.Errorf("%s: %q, want %q, %v", at, got, want, err)
		}
	}
}

// A choice is written for people, and a column without values is not shown.
func TestChoiceInWords(t *testing.T) {
	if got := spacedChoice("corn=PLC long_grain_rice=ARC-CO"); got != "corn PLC, long grain rice ARC-CO" {
		t.Error(got)
	}
	s := NewSums()
	columns := []string{"client", "person", "operations", "owners", "choices_typed", "signatures", "papers", "phone"}
	const none = "not recorded here"
	s.calls.add(record{columns, []string{"c", "ann", "o", "", none, none, none, ""}})
	t1 := s.callList()
	if head := func() (all []string) {
		for _, c := range t1.Columns {
			all = append(all, c.Head)
		}
		return all
	}(); !slices.Equal(head, []string{"client", "person", "operations", "choices, signatures and papers noted here", "phone"}) || t1.Rows[0][3] != "Choices, signatures and papers: not recorded here." {
		t.Errorf("%q %v", head, t1.Rows)
	}
	s.calls.lines[0].cells[5] = "signed November 20, 2026."
	if got := s.callList().Rows[0][3]; got != "Choices: not recorded here. Signatures: signed November 20, 2026. Papers: not recorded here." {
		t.Error(got)
	}
}
