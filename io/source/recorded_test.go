package source_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"fencerow/io/read/operation"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// printed is the text of an invented print of io/read/record, with parts replaced.
func printed(t *testing.T, name string, pairs ...string) []byte {
	t.Helper()
	text, err := os.ReadFile("../read/record/testdata/" + name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(string(text), pairs[i]) {
			t.Fatalf("%q is not in the text", pairs[i])
		}
	}
	return []byte(strings.NewReplacer(pairs...).Replace(string(text)))
}

// findInvented finds the counties of those prints.
func findInvented(_, county string) (string, *farm.Fault) {
	switch strings.ToLower(county) {
	case "heather ridge":
		return "99011", nil
	case "copper ford":
		return "99013", nil
	}
	return "", &farm.Fault{Reason: "no such county"}
}

func newRecorded(t *testing.T, text []byte) *source.Recorded {
	t.Helper()
	r, err := source.NewRecorded("print.txt", text, findInvented)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// fileOf reads the operation file that the answers made.
func fileOf(t *testing.T, r *source.Recorded) farm.Operation {
	t.Helper()
	if q, more := r.Question(); more {
		t.Fatalf("still asks %q", q.Words)
	}
	o, err := operation.Parse("farms.yaml", r.Operation())
	if err != nil {
		t.Fatalf("%v in\n%s", err, r.Operation())
	}
	return o
}

// lineOf returns the number of the line that says this.
func lineOf(t *testing.T, r *source.Recorded, what string) string {
	t.Helper()
	at := slices.IndexFunc(r.Lines(), func(l source.FigureLine) bool { return strings.HasSuffix(l.What, what) })
	if at < 0 {
		t.Fatalf("no line says %q: %v", what, r.Lines())
	}
	digits := ""
	for n := at + 1; n > 0; n /= 10 {
		digits = string(rune('0'+n%10)) + digits
	}
	return digits
}

// A print that says all asks only about the notice and for confirmation. The figures are
// those chosen for the print: 91.40 + 33.25 base acres, HIP 60 and 35.
func TestRecordedTakesAll(t *testing.T) {
	r := newRecorded(t, printed(t, "one-tract"))
	if keys := asked(t, r, "", ""); !slices.Equal(keys, []string{"record_before_notice", "lines"}) {
		t.Errorf("asked %v", keys)
	}
	f := fileOf(t, r).Farms[0]
	if f.Key() != "99011-6101" || f.BaseAcres() != 124.65 || *f.Bases[0].IrrigatedShare != 0.6 || *f.Bases[1].PaymentYield != 44 || f.Bases[0].Tract != "8101" ||
		f.Record[crop.Corn] != farm.ARCCO || f.Record[crop.Soybeans] != farm.PLC || *f.Cropland != 130.10 || *f.TotalAcres != 150 || f.BeforeNotice == nil || !*f.BeforeNotice {
		t.Errorf("%+v", f)
	}
	if len(r.NotKnown()) > 0 || len(r.Warnings()) > 0 || len(r.Unread()) > 0 {
		t.Errorf("not known %v, warnings %v, unread %v", r.NotKnown(), r.Warnings(), r.Unread())
	}
	if l := r.Lines()[2]; l != (source.FigureLine{What: "farm 6101, corn on tract 8101: base acres", Value: "91.4", Place: "page 1 line 52"}) {
		t.Errorf("%+v", l)
	}
}

// Any line can be changed by its number; what is typed is checked, and goes into the file.
func TestRecordedChanges(t *testing.T) {
	r := newRecorded(t, printed(t, "three-tracts"))
	asked(t, r, "y")
	for _, c := range [][2]string{
		{"corn on tract 8201: base acres", "150"}, {"wheat on tract 8203: PLC yield", "59"}, {"county where tract 8203 lies", "99015"}, {"soybeans: last election", "p"},
		{"grain sorghum: HIP, percent irrigated", "5"}, {"your share of the crop", "40"}, {"corn: base acres on the 2026 notice", "1,300"}, {"corn: PLC yield on the 2026 notice", "140"},
		{"all cropland idle in 2009 to 2017", "yes"}, {"cropland", "1400.5"}, {"county of the office", "99012"},
	} {
		asked(t, r, lineOf(t, r, c[0]), c[1])
	}
	asked(t, r, "")
	f := fileOf(t, r).Farms[0]
	counties := map[string]float64{}
	for _, b := range f.Bases {
		counties[b.PhysicalCounty(f)] += b.BaseAcres
	}
	// 205.60 - 110.20 + 150.00 + 1032.40 = 1277.80 on 8201 and 8202, which lie in the office's county
	if len(counties) != 2 || crop.Noise < counties["99012"]-1277.80 || counties["99012"]-1277.80 < -crop.Noise || counties["99015"] != 122.70 {
		t.Errorf("by county %v", counties)
	}
	notice := f.Notice[crop.Corn]
	if f.Record[crop.Soybeans] != farm.PLC || (*f.Shares.Every)["operator"] != 0.4 || notice.BaseAcres != 1300 || *notice.PaymentYield != 140 || !f.Idle20092017 || *f.Cropland != 1400.5 {
		t.Errorf("%+v", f)
	}
}

// What the print leaves open is asked; Enter leaves it out and says so.
func TestRecordedAsksWhatIsOpen(t *testing.T) {
	text := printed(t, "one-tract", "HEATHER RIDGE", "NOWHERE HILL", "Corn    ", "Teosinte", "          SOYBN", "          BEANZ", "33.25", "33.2S", "  44", "    ", ": Eligible", ": Pending")
	r := newRecorded(t, text)
	keys := asked(t, r, "99011", "no", "corn", "soybeans", "33.25", "33.25", "44", "n", "")
	want := strings.Fields("county idle_2009_2017 commodity election_on_record base_acres base_acres payment_yield record_before_notice lines")
	if !slices.Equal(keys, want) {
		t.Errorf("asked %v\nwant  %v", keys, want)
	}
	f := fileOf(t, r).Farms[0]
	if f.County != "99011" || f.BaseAcres() != 124.65 || *f.Bases[1].PaymentYield != 44 || len(f.Record) != 2 || *f.BeforeNotice || len(r.NotKnown()) > 0 {
		t.Errorf("%+v, not known %v", f, r.NotKnown())
	}
	r = newRecorded(t, text)
	asked(t, r, "99011", "", "", "", "33.25", "33.25", "", "", "")
	f = fileOf(t, r).Farms[0]
	if len(f.Bases) != 1 || f.Bases[0].PaymentYield != nil || len(f.Record) != 0 {
		t.Errorf("%+v", f)
	}
	not := strings.Join(r.NotKnown(), "\n")
	for _, want := range []string{`"Teosinte" is not known`, `"BEANZ" is not known`, "PLC yield of Soybeans on tract 8101"} {
		if !strings.Contains(not, want) {
			t.Errorf("%q is not among what is not known:\n%s", want, not)
		}
	}
}

// What cannot be is refused, and the same question stands.
func TestRecordedRefuses(t *testing.T) {
	text := printed(t, "one-tract")
	for _, c := range []struct {
		before []string
		text   string
		hint   string
	}{
		{nil, "perhaps", "yes or no"},
		{[]string{"y"}, "99", "from 1 to"},
		{[]string{"y"}, "1.5", "from 1 to"},
		{[]string{"y"}, "corn", "from 1 to"},
		{[]string{"y", "1"}, "nowhere", "five digits"},
		{[]string{"y", "3"}, "0", "leave out"},
		{[]string{"y", "3"}, "many", "number"},
		{[]string{"y", "4"}, "17100", "bu/acre"},
		{[]string{"y", "7"}, "135", "0 to 100"},
		{[]string{"y", "8"}, "arc", "write p for PLC"},
		{[]string{"y", "8", "i"}, "", "change that line"}, // ARC-IC for one crop of two
		{[]string{"y", "16"}, "150", "line before"},
	} {
		r := newRecorded(t, text)
		asked(t, r, c.before...)
		stood, _ := r.Question()
		_, fault := r.Answer(c.text)
		if fault == nil || !strings.Contains(fault.Hint, c.hint) {
			t.Errorf("%v then %q: %+v; want a hint with %q", c.before, c.text, fault, c.hint)
			continue
		}
		if stands, _ := r.Question(); stands != stood {
			t.Errorf("%v then %q: asks %q, not %q again", c.before, c.text, stands.Words, stood.Words)
		}
	}
	if _, err := source.NewRecorded("print.txt", []byte("%PDF-1.4"), nil); err == nil {
		t.Error("a PDF is read")
	}
}

// Going back and answering anew gives the same file; nothing tells who somebody is.
func TestRecordedBack(t *testing.T) {
	r := newRecorded(t, printed(t, "three-tracts"))
	answers := []string{"n", "10", "150", ""}
	asked(t, r, answers...)
	file := string(r.Operation())
	for i := len(answers) - 1; i >= 0; i-- {
		if typed, ok := r.Back(); !ok || typed != answers[i] {
			t.Fatalf("back to %q, %v; want %q", typed, ok, answers[i])
		}
	}
	if _, ok := r.Back(); ok {
		t.Error("goes back before the first question")
	}
	asked(t, r, answers...)
	if again := string(r.Operation()); again != file {
		t.Errorf("%s\nis not\n%s", again, file)
	}
	told := strings.Join(slices.Concat(r.Warnings(), r.Unread(), r.NotKnown(), []string{file}), "\n")
	for _, l := range r.Lines() {
		told += l.What + l.Value
	}
	for _, name := range []string{"NOBODY", "PRETEND", "77013"} {
		if strings.Contains(told, name) {
			t.Errorf("%s is told", name)
		}
	}
}
