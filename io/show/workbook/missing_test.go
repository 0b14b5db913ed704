package workbook

import (
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Where a figure is missing the cells say so, and never 0.
func TestMissingFiguresAreUnknown(t *testing.T) {
	cases := []struct {
		what             string
		change           func(*answer.Question)
		plc, arc, ahead  bool // known for the wheat of the first farm in 2026
		leftOut, noPrice bool
	}{
		{"nothing is missing", func(*answer.Question) {}, true, true, true, false, false},
		{"no payment yield", func(c *answer.Question) { c.Operation.Farms[0].Bases[0].PaymentYield = nil }, false, true, false, true, false},
		{"no past price", func(c *answer.Question) { delete(c.Market.MYA[crop.Wheat], 2022) }, false, false, false, true, false},
		{"no projected price", func(c *answer.Question) { delete(c.Market.Outlook[crop.Wheat], 2026) }, false, false, false, true, true},
		{"no county yield", func(c *answer.Question) { c.Operation.Farms[0].Bases[0].County = "99009" }, true, false, false, true, false},
		{"no irrigated share", func(c *answer.Question) { c.Operation.Farms[1].Bases[1].IrrigatedShare = nil }, true, true, true, false, false},
	}
	for _, k := range cases {
		c := testCase()
		k.change(&c)
		a := ask(t, c)
		f := a.workbook(t)
		_, layout := lay(a.comparison, a.Figures, a.pages())
		at := layout.results.of[commodityBaseKey{"99001-0417", crop.Wheat, 2026}]
		for name, pair := range map[string][2]bool{"PLC": {k.plc, at.plc.Known()}, "ARC-CO": {k.arc, at.arc.Known()}, "PLC per acre": {k.plc, at.plcAcre.Known()}, "ARC-CO per acre": {k.arc, at.arcAcre.Known()}} {
			if pair[0] != pair[1] {
				t.Errorf("%s: %s is known: %v, want %v", k.what, name, pair[1], pair[0])
			}
		}
		text := sheetText(t, f, "Payments at these figures")
		if out := strings.Contains(text, "\twheat\n"); out != k.leftOut {
			t.Errorf("%s: left out %v, want %v\n%s", k.what, out, k.leftOut, text)
		}
		if k.leftOut && !strings.Contains(text, cells.Unknown) {
			t.Errorf("%s: no cell says so", k.what)
		}
		if strings.Contains(sheetText(t, f, "Other prices"), "no price is projected") != k.noPrice {
			t.Errorf("%s: other prices", k.what)
		}
	}
}

// A share that is not given is a cell with 0 in it, and a note says so.
func TestIrrigatedShareNotTold(t *testing.T) {
	c := testCase()
	c.Operation.Farms[1].Bases[1].IrrigatedShare = nil
	a := ask(t, c)
	f := a.workbook(t)
	_, layout := lay(a.comparison, a.Figures, a.pages())
	key := baseKey{"99001-0588", crop.Corn, 1}
	share := layout.results.bases.inputs.bases[key].irrigated
	if text, _ := f.GetCellValue(share.On.Title, share.Address()); !share.Known() || !strings.HasPrefix(text, "0") {
		t.Errorf("the irrigated share shows %q", text)
	}
	if at := layout.results.of[commodityBaseKey{"99001-0588", crop.Corn, 2026}]; !at.arc.Known() {
		t.Error("ARC-CO is unknown")
	}
	for _, sheet := range []string{"By tract", "Payments at these figures"} {
		if !strings.Contains(sheetText(t, f, sheet), "no irrigated share is given") && !strings.Contains(sheetText(t, f, sheet), "No irrigated share is given") {
			t.Errorf("%s does not say so", sheet)
		}
	}
}

// sheetText is what a sheet shows, a line for each row, without empty cells at
// the right.
func sheetText(t *testing.T, f *excelize.File, sheet string) string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	for _, row := range rows {
		text.WriteString(strings.TrimRight(strings.Join(row, "\t"), "\t") + "\n")
	}
	return text.String()
}

// Base that cannot be paid is paid 0, and the reason stands beside it.
func TestUnpaidBaseIsPaidNothing(t *testing.T) {
	c := testCase()
	missed := farm.Missed
	c.Operation.Farms[1].Contract = farm.ByCropYear[farm.Contract]{Every: &missed}
	a := ask(t, c)
	f := a.workbook(t)
	_, layout := lay(a.comparison, a.Figures, a.pages())
	at := layout.results.of[commodityBaseKey{"99001-0588", crop.Corn, 2026}]
	for _, p := range []cells.Place{at.plc, at.arc, at.plcAcre, at.arcAcre} {
		if text, _ := f.GetCellValue(p.On.Title, p.Address()); text != "0.00" {
			t.Errorf("%s shows %q", p.Absolute(), text)
		}
	}
	if text := sheetText(t, f, "Payments at these figures"); !strings.Contains(text, "No contract was signed") {
		t.Errorf("no reason in\n%s", text)
	}
}

// Where only a benchmark yield is known it is the cell that can be changed.
func TestBenchmarkYieldCanBeTold(t *testing.T) {
	c := testCase()
	alder := c.Counties[0].Counties["99001"]
	for i := range alder.Yields {
		y := &alder.Yields[i]
		y.Adjusted, y.BenchmarkYield = nil, map[crop.CropYear]float64{2026: 50, 2027: 51}
	}
	a := ask(t, c)
	_, layout := lay(a.comparison, a.Figures, a.pages())
	book := layout.results.bases.inputs.book
	at := book.Yields[front.CountyKey{County: "99001", Commodity: crop.Wheat, Practice: farm.AllPractices, CropYear: 2026}].TypedBenchmark
	if !at.Known() || !book.Counties.Rows[at.Row-1][at.Column-1].Look.Input {
		t.Fatalf("the benchmark yield is no input: %+v", at)
	}
	want := a.Workings[0].Commodities[0]
	coverage := want.Terms.ARCCO(50, want.Benchmark.Value)
	guarantee := book.Counties.Names["guarantee_99001_wheat_all_2026"]
	if got := calculated(t, a.workbook(t), guarantee); got != coverage.Guarantee {
		t.Errorf("guarantee %v, want %v", got, coverage.Guarantee)
	}
}
