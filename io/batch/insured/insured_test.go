package insured

import (
	"reflect"
	"strings"
	"testing"

	"fencerow/io/batch/names"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// comparison is a farm with corn under PLC, last elected, and SCO; ECO cannot be had.
func comparison() answer.Comparison {
	plc := farm.PLC
	d := answer.DollarsOf
	k := answer.InsuredCrop{Commodity: crop.Corn, County: "99001", Practice: "all", Plan: farm.RevenueProtection, Level: 0.75, InsuredAcres: 100, Share: 1, BaseAcres: 80, Sales: answer.Sales{Standing: "open", LastDay: "2027-03-15"},
		Apart: []string{"ARC-CO with SCO: not allowed."},
		Layers: []answer.InsuredLayer{{Layer: farm.SCO, Trigger: 0.86, LowerEnd: 0.75, Percentage: 1, Average: d(20), ChanceOfPayment: answer.ChanceOf(0.25), Premium: d(6.2), Fee: 0.3, Net: d(13.5)},
			{Layer: farm.ECO, Missing: "there is no ECO"}},
		Together: []answer.InsuranceRow{{Program: plc, Layers: []farm.Program{}, Average: d(700)}, {Program: plc, Layers: []farm.Program{farm.SCO}, Average: d(2050), Worst: d(-650)}, {Layers: []farm.Program{farm.SCO}, Average: d(1350)}},
		Overlap:  []answer.Overlap{{Program: plc, Layer: farm.SCO, Both: 0.1, OnlyProgram: 0.2, OnlyLayer: 0.15, Neither: 0.55}}}
	choice := answer.Choice{crop.Corn: plc}
	f := answer.FarmPart{Farm: "99001-0417", Commodities: []answer.CommodityPart{{Commodity: crop.Corn, OnRecord: &plc}},
		Insurance: &answer.Insurance{Crops: []answer.InsuredCrop{k}, InsuredAcres: 100, BaseAcres: 80, WholeFarm: []answer.InsuranceRow{{Choice: choice, Average: d(700)}, {Choice: choice, Layers: []farm.Program{farm.SCO}, Average: d(2050)}}}}
	return answer.Comparison{CropYears: []answer.YearPart{{CropYear: 2027, Farms: []answer.FarmPart{{Farm: "99001-0001"}, f}}}}
}

// Each way of the answer is a line: programs and layers of a crop with what belongs to them, a
// layer that cannot be had with the reason, then the whole farm.
func TestOf(t *testing.T) {
	at := map[string]int{}
	for i, name := range Columns {
		at[name] = i
	}
	columns := strings.Fields("commodity program layers last_elected mean mean_of_worst_tenth chance_both_pay chance_neither_pays layer_mean layer_net_mean fee missing choice")
	want := [][]string{
		{"corn", "PLC", "", "true", "700.00", "", "", "", "", "", "", "", ""},
		{"corn", "PLC", "SCO", "true", "2050.00", "-650.00", "0.100000", "0.550000", "", "", "", "", ""},
		{"corn", "", "SCO", "false", "1350.00", "", "", "", "20.00", "13.50", "0.30", "", ""},
		{"corn", "", "ECO", "false", "", "", "", "", "", "", "", "there is no ECO", ""},
		{"", "", "", "true", "700.00", "", "", "", "", "", "", "", "corn=PLC"},
		{"", "", "SCO", "true", "2050.00", "", "", "", "", "", "", "", "corn=PLC"},
	}
	lines := Of("ann", "north", comparison(), nil, names.Labels{})
	if len(lines) != len(want) {
		t.Fatalf("%d lines, want %d", len(lines), len(want))
	}
	for i, l := range lines {
		record := l.Record()
		if len(record) != len(Columns) || strings.Join(record[:5], " ") != "ann north 99001-0417 "+want[i][0]+" 2027" {
			t.Errorf("line %d: %v", i, record)
		}
		for k, name := range columns {
			if got := record[at[name]]; got != want[i][k] {
				t.Errorf("line %d: %s is %q, want %q", i, name, got, want[i][k])
			}
		}
	}
	if got := lines[0].Record(); got[at["not_together"]] != "ARC-CO with SCO: not allowed." || got[at["sales_last_day"]] != "2027-03-15" || got[at["coverage_level"]] != "0.750000" {
		t.Errorf("of the crop: %v", got)
	}
}

// A farm that lacks rows has no lines of the whole farm, and masked ones have no name.
func TestOfIncompleteAndMasked(t *testing.T) {
	lines := Of("ann", "north", comparison(), map[string]bool{"99001-0417": true}, names.New("", 3, true, nil))
	for _, l := range lines {
		if l.Commodity == "" || l.Client != "client 3-1" || l.Operation != "operation 3-1" || l.Farm != "farm 3-1" {
			t.Errorf("%+v", l)
		}
	}
	if len(lines) != 4 {
		t.Errorf("%d lines, want 4", len(lines))
	}
}

// The columns of both files have the same names in the same order.
func TestColumns(t *testing.T) {
	var fields []string
	of := reflect.TypeFor[Line]()
	for i := range of.NumField() {
		name, _, _ := strings.Cut(of.Field(i).Tag.Get("parquet"), ",")
		fields = append(fields, name)
	}
	if !reflect.DeepEqual(fields, Columns) {
		t.Errorf("parquet has %v, csv %v", fields, Columns)
	}
	if !(Line{Client: "a", Operation: "z"}).Before(Line{Client: "b", Operation: "a"}) || (Line{Client: "a"}).Before(Line{Client: "a"}) {
		t.Error("lines are not in the order of clients and operations")
	}
}
