package builtin

import (
	"regexp"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Lines of an invented State, in the layout of docs/formats.md.
const invented = `99001,,,name,,Alder
99001,corn,all,actual,2023,188.5,,190
99001,corn,all,adjusted_five,2019,171,172,173,174,175
99001,corn,all,benchmark,2025,173
99001,corn,all,rma,2023,188.5
99001,wheat,all,nass,2020,50
99001,wheat,all,nass_winter,2020,51
99001A,,,name,,"Alder, North"
99001A,corn,irrigated,benchmark,2025,210
99002,,,name,,Birch
99002,corn,all,nass,2020,160
`

// The figures stand where their kind says, a missing one is missing, each agency has its
// own counties, and NASS's classes of wheat stay apart.
func TestParse(t *testing.T) {
	all, err := parse(invented, "99")
	if err != nil {
		t.Fatal(err)
	}
	if len(all["FSA"]) != 2 || len(all["RMA"]) != 1 || len(all["NASS"]) != 2 {
		t.Fatalf("%v", all)
	}
	alder := all["FSA"]["99001"]
	if alder.Code != "99001" || alder.Name != "Alder" || len(alder.Yields) != 1 {
		t.Fatalf("%+v", alder)
	}
	y := alder.Yields[0]
	if y.Commodity != crop.Corn || y.Practice != farm.AllPractices || len(y.Actual) != 2 || y.Actual[2023] != 188.5 || y.Actual[2025] != 190 || y.BenchmarkYield[2025] != 173 {
		t.Errorf("%+v", y)
	}
	if five := y.Adjusted[2025]; five != [5]crop.Yield{171, 172, 173, 174, 175} { // the oldest of 2025 is that of 2019
		t.Errorf("the five yields are %v", y.Adjusted)
	}
	if got := all["RMA"]["99001"].Yields[0].Insured[2023]; got != 188.5 {
		t.Errorf("RMA's yield is %v", got)
	}
	wheat := all["NASS"]["99001"].Yields
	if len(wheat) != 2 || wheat[0].Harvested[2020] != 50 || wheat[1].Harvested[2020] != 51 {
		t.Errorf("NASS's wheat is %+v", wheat)
	}
	if all["NASS"]["99002"].Name != "Birch" || all["FSA"]["99001A"].Yields[0].Practice != farm.Irrigated {
		t.Errorf("%+v", all)
	}
	if one, err := parse(invented, "99002"); err != nil || len(one["FSA"]) != 0 || len(one["NASS"]) != 1 {
		t.Errorf("one county: %v, %v", one, err)
	}
}

// Lines set apart come together again, whatever is empty in them; what does not fit together
// is an error.
func TestTogether(t *testing.T) {
	for _, text := range []string{invented, "99001,corn,,a,1,2\n99001,corn,,b,1,3\n99001,,,name,,Alder\n99001,corn,all,a,1,\n"} {
		if got, err := together(apart(text)); err != nil || got != text {
			t.Errorf("%v\n%s\nwant\n%s", err, got, text)
		}
	}
	if got, err := together("99001,corn,all,actual,2023\n,,,rma,2024\n\n1,2\n3\n"); err != nil || got != "99001,corn,all,actual,2023,1,2\n99001,corn,all,rma,2024,3\n" {
		t.Errorf("%q, %v", got, err)
	}
	for _, damaged := range []string{"99001,corn,all,actual,2023\n", "99001,corn\n\n1\n", "\n\n1\n", "99001,corn,all,actual,2023\n\n1\n2\n"} {
		if got, err := together(damaged); err == nil {
			t.Errorf("%q is read as %q", damaged, got)
		}
	}
}

// A damaged line, index or member is an error and no figure.
func TestDamaged(t *testing.T) {
	for _, text := range []string{"99001,corn,all,actual\n", "99001,corn,all,actual,soon,1\n", "99001,corn,all,actual,2020,many\n", "99001,corn,all,adjusted_five,2019,1,2,3,4\n"} {
		if all, err := parse(text, "99"); err == nil {
			t.Errorf("%q is read as %v", text, all)
		}
	}
	for _, lines := range []string{"", "99,,,state,,Invented,0\n", "99,,,county,,Invented,0,1\n", "99,,,state,,Invented,0,1\n"} {
		if states, err := readIndex(pack(t, heading+lines)); (err == nil) != (lines == "") {
			t.Errorf("index %q: %v, %v", lines, states, err)
		}
	}
	if _, err := readIndex([]byte("no gzip")); err == nil {
		t.Error("a file that is not packed is read")
	}
}

// The embedded file: every State is read whole, State 99 is nobody's, the sources stand
// in the order in which they win, and each says that it is built in and of which day.
func TestSources(t *testing.T) {
	all, err := Sources("")
	if err != nil || len(all) != 3 {
		t.Fatal(len(all), err)
	}
	dated := regexp.MustCompile(`^(FSA|RMA|NASS) .*, built in, (the newest )?(of \d{4}-\d\d-\d\d|not dated)$`)
	for i, agency := range []string{"FSA", "RMA", "NASS"} {
		s := all[i]
		if !strings.HasPrefix(s.Name, agency) || !dated.MatchString(s.Name) || s.Status != crop.Agency || s.Agency != (agency == "FSA") {
			t.Errorf("%s %s %v", s.Name, s.Status, s.Agency)
		}
		for code, county := range s.Counties {
			if code != county.Code || county.Name == "" || len(county.Yields) == 0 || strings.HasPrefix(code, "99") {
				t.Fatalf("%s: %+v", code, county)
			}
			for _, y := range county.Yields {
				if !known(y) {
					t.Fatalf("%s: %s %s", code, y.Commodity, y.Practice)
				}
			}
		}
	}
	if none, err := Sources("99"); err != nil || len(none) != 0 {
		t.Errorf("State 99 has %v, %v", none, err)
	}
	if len(Files()) < 3 {
		t.Error("builtin-sources.csv cannot be read")
	}
}

func known(y farm.CountyYield) bool {
	c, ok := crop.ParseCommodity(string(y.Commodity))
	return ok && c == y.Commodity && (y.Practice == farm.AllPractices || y.Practice == farm.Irrigated || y.Practice == farm.Nonirrigated)
}

// One county by its code is what its State has of it.
func TestOneCounty(t *testing.T) {
	all, err := Sources("")
	if err != nil {
		t.Fatal(err)
	}
	const every = 97 // of some 3,000: one of each agency in many States
	checked := 0
	for _, s := range all {
		n := 0
		for code, county := range s.Counties {
			if n++; n%every != 0 || len(code) > 5 {
				continue
			}
			checked++
			one, err := Sources(code)
			if err != nil {
				t.Fatal(err)
			}
			for _, o := range one {
				if o.Name == s.Name && len(o.Counties[code].Yields) != len(county.Yields) {
					t.Errorf("%s: %d series alone, %d with its State", code, len(o.Counties[code].Yields), len(county.Yields))
				}
			}
		}
	}
	if checked < 20 {
		t.Errorf("%d counties checked", checked)
	}
}

// The cost of one county and of everything. Texas has the largest member.
func BenchmarkOneCounty(b *testing.B) {
	for range b.N {
		if _, err := Sources("48189"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOneState(b *testing.B) {
	for range b.N {
		states, err := readIndex(counties)
		if err != nil {
			b.Fatal(err)
		}
		for _, s := range states {
			if s.code != "48" {
				continue
			}
			if _, err := s.counties(s.code); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkEverything(b *testing.B) {
	for range b.N {
		states, err := readIndex(counties)
		if err != nil {
			b.Fatal(err)
		}
		for _, s := range states {
			if _, err := s.counties(s.code); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// The cost of the tables of past crop years.
func BenchmarkPast(b *testing.B) {
	for range b.N {
		if _, err := Past(); err != nil {
			b.Fatal(err)
		}
	}
}
