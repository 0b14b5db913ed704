package farmtable_test

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	. "fencerow/io/read/farmtable"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Choices and signatures of a table are those of its rows, each of its crop year; blank,
// unknown and a dash say nothing.
func TestDecided(t *testing.T) {
	rows, refused, err := readText(`farm,county,commodity,crop_year,base_acres,producer,share,choice,signed
1,99001,corn,2026,10,ann,0.5,arc co,2026-11-20
1,99001,corn,2026,10,bob,0.5,,no
1,99001,soybeans,2026,20,ann,0.5,-,
1,99001,soybeans,2026,20,bob,0.5,,
2,99001,corn,2026,30,ann,1,,unknown
`)
	if err != nil || len(refused) > 0 {
		t.Fatal(err, refused)
	}
	if err := survives(rows); err != nil {
		t.Error(err)
	}
	o, refused := Assemble(rows)
	if len(refused) > 0 {
		t.Fatal(refused)
	}
	want := map[crop.CropYear]map[crop.Commodity]farm.Program{2026: {crop.Corn: farm.ARCCO}}
	signed := map[crop.CropYear]map[string]farm.Signature{2026: {"ann": {Signed: farm.Yes, On: "2026-11-20"}, "bob": {Signed: farm.No}}}
	if f := o.Farms.Farms[0]; !reflect.DeepEqual(f.Choice, want) || !reflect.DeepEqual(f.Signed, signed) {
		t.Errorf("%v, %v", f.Choice, f.Signed)
	}
	if f := o.Farms.Farms[1]; len(f.Choice)+len(f.Signed) > 0 {
		t.Errorf("nothing was typed: %v, %v", f.Choice, f.Signed)
	}
}

// What is wrong with a choice or a signature is refused at its line and column.
func TestDecidedRefused(t *testing.T) {
	const head = "farm,county,commodity,crop_year,base_acres,choice,signed\n"
	for _, one := range []struct{ rows, want string }{
		{"1,99001,corn,2026,10,ARC,\n", `2 choice choice is "ARC"`},
		{"1,99001,corn,2026,10,PLC,2026-02-30\n", `2 signed signed is "2026-02-30"`},
		{"1,99001,corn,,10,PLC,\n", `2 choice choice is "PLC", and the row has no crop_year`},
		{"1,99001,corn,,10,,yes\n", `2 signed signed is "yes", and the row has no crop_year`},
		{"1,99001,corn,2026,10,ARC-IC,\n1,99001,oats,2026,10,PLC,\n", `2 choice choice of farm 1 of crop year 2026 has ARC-IC for some of its crops only`},
		{"1,99001,corn,2026,10,,yes\n1,99001,oats,2026,10,,no\n", `3 signed signed of farm 1 for 2026 is no, and yes on line 2`},
	} {
		rows, refused, err := readText(head + one.rows)
		if err != nil {
			t.Fatal(err)
		}
		_, more := Assemble(rows)
		var got []string
		for _, r := range slices.Concat(refused, more) {
			got = append(got, fmt.Sprintf("%d %s %s", r.Line, r.Column, r.Reason))
			if r.Hint == "" {
				t.Errorf("no hint: %v", r)
			}
		}
		if len(got) != 1 || got[0] != one.want {
			t.Errorf("%s got  %q\nwant %q", one.rows, got, one.want)
		}
	}
}
