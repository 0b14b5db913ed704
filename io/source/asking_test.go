package source_test

import (
	"slices"
	"strings"
	"testing"

	"fencerow/io/read/operation"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// apart says that county 99003 has soybeans irrigated and nonirrigated apart.
func apart(county string, c crop.Commodity) bool { return county == "99003" && c == crop.Soybeans }

// asking is what asks: source.Asking or source.Recorded.
type asking interface {
	Question() (source.AskedQuestion, bool)
	Answer(text string) (understood string, fault *farm.Fault)
}

// asked answers in turn, and returns the keys of the questions that were asked.
func asked(t *testing.T, a asking, answers ...string) (keys []string) {
	t.Helper()
	for _, text := range answers {
		q, more := a.Question()
		if !more {
			t.Fatalf("nothing is asked any more, %q is left", text)
		}
		keys = append(keys, q.Key)
		if _, fault := a.Answer(text); fault != nil {
			t.Fatalf("%s %q: %s", q.Key, text, fault.Reason)
		}
	}
	return keys
}

// twoFarms are answers about two farms; HIP is asked where the county has both practices.
var twoFarms = []string{"0417", "99001", "corn", "1,204.5", "171", "p", "", "50", "yes", "1300", "175", "0588", "99003", "soy", "80", "", "35", "", "wh", "40.25", "61", "Price Loss Coverage", "", "", "n", ""}

// The questions come in the order of the farm record, and the file that they make is read
// as what was answered. By hand: shares of one half on both farms, since the second takes
// that of the first.
func TestAskingInTheOrderOfTheRecord(t *testing.T) {
	a := source.NewAsking(apart)
	keys := asked(t, a, twoFarms...)
	want := strings.Fields("farm county commodity base_acres payment_yield election_on_record commodity share record_before_notice notice_base_acres notice_payment_yield farm county commodity base_acres payment_yield irrigated_share election_on_record commodity base_acres payment_yield election_on_record commodity share record_before_notice farm")
	if !slices.Equal(keys, want) {
		t.Errorf("asked %v\nwant  %v", keys, want)
	}
	if q, more := a.Question(); more {
		t.Errorf("still asks %q", q.Words)
	}
	read, err := operation.Parse("farms.yaml", a.Operation())
	if err != nil {
		t.Fatalf("%v in\n%s", err, a.Operation())
	}
	if notice := read.Farms[0].Notice[crop.Corn]; read.Farms[0].BeforeNotice == nil || !*read.Farms[0].BeforeNotice || notice.BaseAcres != 1300 || notice.PaymentYield == nil || *notice.PaymentYield != 175 {
		t.Errorf("notice %+v", notice)
	}
	if read.Farms[1].BeforeNotice == nil || *read.Farms[1].BeforeNotice {
		t.Error("the second record is not older than the notice")
	}
	typed, err := operation.Parse("typed.yaml", []byte(`format: fencerow/operation/1
farms:
  - {farm: "0417", county: "99001", shares: {operator: 0.5}, election_on_record: {corn: PLC}, bases: [{commodity: corn, base_acres: 1204.5, payment_yield: 171}]}
  - {farm: "0588", county: "99003", shares: {operator: 0.5}, election_on_record: {wheat: PLC}, bases: [{commodity: soybeans, base_acres: 80, irrigated_share: 0.35}, {commodity: wheat, base_acres: 40.25, payment_yield: 61}]}
`))
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range read.Farms {
		other := typed.Farms[i]
		if f.Key() != other.Key() || len(f.Bases) != len(other.Bases) || f.Record[crop.Wheat] != other.Record[crop.Wheat] || f.Record[crop.Corn] != other.Record[crop.Corn] || f.Shares.Every == nil || (*f.Shares.Every)["operator"] != 0.5 {
			t.Errorf("farm %+v, want %+v", f, other)
		}
		for j, b := range f.Bases {
			if w := other.Bases[j]; b.Commodity != w.Commodity || b.BaseAcres != w.BaseAcres || (b.PaymentYield == nil) != (w.PaymentYield == nil) || b.PaymentYield != nil && *b.PaymentYield != *w.PaymentYield || (b.IrrigatedShare == nil) != (w.IrrigatedShare == nil) || b.IrrigatedShare != nil && *b.IrrigatedShare != *w.IrrigatedShare {
				t.Errorf("base %+v, want %+v", b, w)
			}
		}
	}
	if not := strings.Join(a.NotKnown(), "\n"); !strings.Contains(not, "farm 0588, soybeans: no PLC yield") || !strings.Contains(not, "farm 0588, soybeans: no last election") || strings.Contains(not, "0417") {
		t.Errorf("not known: %s", not)
	}
}

// What cannot be is refused at once, with what to do, and the same question stands.
func TestAskingRefuses(t *testing.T) {
	for _, one := range []struct {
		before []string
		text   string
		hint   string
	}{
		{nil, "04\"17", "as the farm record prints it"},
		{[]string{"1"}, "", "five digits"},
		{[]string{"1"}, "nowhere", "five digits"},
		{[]string{"1", "99001"}, "", "As the farm record lists it"},
		{[]string{"1", "99001"}, "maize", "such as corn"},
		{[]string{"1", "99001"}, "s", "write more of it"},
		{[]string{"1", "99001", "corn"}, "", "not the acres planted"},
		{[]string{"1", "99001", "corn"}, "0", "leave out"},
		{[]string{"1", "99001", "corn"}, "many", "write a number alone"},
		{[]string{"1", "99001", "corn", "120"}, "17100", "bu/acre"},
		{[]string{"1", "99003", "soy", "80", "47"}, "1", "write 100% or 1%"},
		{[]string{"1", "99003", "soy", "80", "47"}, "135", "from 0 to 100"},
		{[]string{"1", "99001", "corn", "120", "171"}, "arc", "write p for PLC"},
		{[]string{"1", "99001", "corn", "120", "171", "i", "soy", "80", "47"}, "p", "all crops of a farm"},
		{[]string{"1", "99001", "corn", "120", "171", "p"}, "corn", "all tracts together"},
		{[]string{"1", "99001", "corn", "120", "171", "p", ""}, "1", "write 100% or 1%"},
		{[]string{"1", "99001", "corn", "120", "171", "p", "", ""}, "perhaps", "write y or n"},
		{[]string{"1", "99001", "corn", "120", "171", "p", "", "", "y"}, "many", "write a number alone"},
		{[]string{"1", "99001", "corn", "120", "171", "p", "", "", "y", "130"}, "17100", "bu/acre"},
		{[]string{"1", "99001", "corn", "120", "171", "p", "", "", "n", "1"}, "99001", "another county"},
	} {
		a := source.NewAsking(apart)
		asked(t, a, one.before...)
		stood, _ := a.Question()
		_, fault := a.Answer(one.text)
		if fault == nil || !strings.Contains(fault.Hint, one.hint) || strings.Contains(fault.Reason, "unit_suspect") {
			t.Errorf("%v then %q: %+v; want a hint with %q", one.before, one.text, fault, one.hint)
			continue
		}
		if stands, _ := a.Question(); stands != stood {
			t.Errorf("%v then %q: asks %q, not %q again", one.before, one.text, stands.Words, stood.Words)
		}
	}
}

// A yield of the notice that was refused is not kept: skipped after that, the record's holds.
func TestAskingForgetsWhatItRefused(t *testing.T) {
	a := source.NewAsking(nil)
	asked(t, a, "1", "99001", "corn", "120", "171", "p", "", "", "y", "130")
	if _, fault := a.Answer("17100"); fault == nil {
		t.Fatal("17100 bushels an acre are taken")
	}
	asked(t, a, "", "")
	if file := string(a.Operation()); !strings.Contains(file, "notice: {corn: {base_acres: 130}}") {
		t.Errorf("in the file:\n%s", file)
	}
}

// Going back to the start and answering anew gives the same file.
func TestAskingBack(t *testing.T) {
	a := source.NewAsking(apart)
	asked(t, a, twoFarms...)
	file := string(a.Operation())
	for i := len(twoFarms) - 1; i >= 0; i-- {
		if typed, ok := a.Back(); !ok || typed != twoFarms[i] {
			t.Fatalf("back to %q, %v; want %q", typed, ok, twoFarms[i])
		}
	}
	if _, ok := a.Back(); ok {
		t.Error("goes back before the first question")
	}
	asked(t, a, twoFarms...)
	if again := string(a.Operation()); again != file {
		t.Errorf("%s\nis not\n%s", again, file)
	}
}
