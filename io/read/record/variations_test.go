package record

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"
)

var blanks = regexp.MustCompile(` {2,}`)

// asSample asserts that a record still has all figures of the print it was made from.
func asSample(t *testing.T, r *Record, name string) {
	t.Helper()
	for _, s := range samples {
		if s.name != name {
			continue
		}
		made, _ := r.madeFarm(findInvented)
		same(t, "farm's table", table(r.Crops), s.crops)
		same(t, "elections", lists(r), s.lists)
		same(t, "bases", bases(made), s.bases)
		same(t, "warnings", messages(r.Warnings), s.warnings)
		if len(r.Asked) > 0 {
			t.Errorf("asked %v", r.Asked)
		}
	}
}

// unread asserts how many places are not understood.
func unread(t *testing.T, r *Record, want int) {
	t.Helper()
	if len(r.Unread) != want {
		t.Errorf("not understood: %d places, want %d: %v", len(r.Unread), want, r.Unread)
	}
}

// warned asserts that the only warnings are one with these words.
func warned(t *testing.T, r *Record, words ...string) {
	t.Helper()
	if len(r.Warnings) != 1 || !said(r.Warnings, words...) {
		t.Errorf("warnings %v, want one with %q", r.Warnings, words)
	}
}

// variations are what copying, printing and slips do to a print: from is the print of
// testdata, change what happens to its text, check what has to come of it.
var variations = []struct {
	name, from string
	change     func(t *testing.T, text string) string
	check      func(t *testing.T, r *Record)
}{
	{"line ends of Windows", "three-tracts", func(_ *testing.T, s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
		func(t *testing.T, r *Record) { asSample(t, r, "three-tracts"); unread(t, r, 0) }},
	{"no-break spaces", "three-tracts", func(_ *testing.T, s string) string { return strings.ReplaceAll(s, "  ", "\u00a0 ") },
		func(t *testing.T, r *Record) { asSample(t, r, "three-tracts"); unread(t, r, 0) }},
	{"curly dashes", "three-tracts", func(t *testing.T, s string) string {
		return replaced(t, s, "CCC-505", "CCC\u2011505", "FSA-156EZ", "FSA\u2013156EZ", "non-discriminatory", "non\u2010discriminatory")
	}, func(t *testing.T, r *Record) { asSample(t, r, "three-tracts"); unread(t, r, 0) }},
	{"tabs between columns", "three-tracts", func(_ *testing.T, s string) string { return blanks.ReplaceAllString(s, "\t") },
		func(t *testing.T, r *Record) {
			same(t, "table", table(r.Crops), samples[2].crops)
			unread(t, r, 1) // the second owner: what it stands under is lost
		}},
	{"one blank between columns", "three-tracts", func(_ *testing.T, s string) string { return blanks.ReplaceAllString(s, " ") },
		func(t *testing.T, r *Record) {
			same(t, "table", table(r.Crops), samples[2].crops)
			same(t, "elections", lists(r), samples[2].lists)
			made, _ := r.madeFarm(findInvented)
			same(t, "bases", bases(made), samples[2].bases)
			unread(t, r, 1) // the second owner, as above
		}},
	{"one blank between columns, a code of two words", "unassigned", func(_ *testing.T, s string) string { return blanks.ReplaceAllString(s, " ") },
		func(t *testing.T, r *Record) { asSample(t, r, "unassigned") }},
	{"no form feeds: pages are counted by their heads", "three-tracts", func(_ *testing.T, s string) string { return strings.ReplaceAll(s, "\f", "") },
		func(t *testing.T, r *Record) {
			asSample(t, r, "three-tracts")
			if got := r.Parts[2].Number.Place; got != (Place{3, 101}) {
				t.Errorf("tract 8203 begins on %v, want page 3 line 101", got)
			}
		}},
	{"no blank before colons", "three-tracts", func(_ *testing.T, s string) string { return regexp.MustCompile(` +:`).ReplaceAllString(s, ":") },
		func(t *testing.T, r *Record) {
			same(t, "table", table(r.Crops), samples[2].crops)
			made, _ := r.madeFarm(findInvented)
			same(t, "bases", bases(made), samples[2].bases)
		}},
	{"headings of the crop table on two lines", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "CCC-505 CRP Reduction Acres         PLC Yield       HIP", "CCC-505 CRP Reduction               PLC Yield       HIP\n"+strings.Repeat(" ", 57)+"Acres")
	}, func(t *testing.T, r *Record) { asSample(t, r, "one-tract"); unread(t, r, 0) }},
	{"headings of the elections on two lines", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "          ARC Individual                      ARC County                              Price Loss Coverage",
			"          ARC                                 ARC                                     Price Loss\n          Individual                          County                                  Coverage")
	}, func(t *testing.T, r *Record) { asSample(t, r, "one-tract"); unread(t, r, 0) }},
	{"no commas between thousands", "three-tracts", func(t *testing.T, s string) string {
		return regexp.MustCompile(`(\d),(\d{3})`).ReplaceAllString(s, "$1$2")
	},
		func(t *testing.T, r *Record) {
			made, _ := r.madeFarm(findInvented)
			same(t, "bases", bases(made), samples[2].bases)
		}},
	{"a text of one cell a line without its tracts", "one-cell-a-line", func(_ *testing.T, s string) string { before, _, _ := strings.Cut(s, "Tract Number"); return before },
		func(t *testing.T, r *Record) {
			warned(t, r, "counts 1 tracts, and 0 are in the text")
			made, asked := r.madeFarm(findInvented)
			same(t, "bases", bases(made), []string{"corn 91.4 @141 irrigated 0.6", "soybeans 33.25 @44 irrigated 0.35"})
			if len(asked) != 1 || !said(asked, "county", "6101") {
				t.Errorf("asked %v", asked)
			}
		}},
	{"one cell a line, a crop's name on two", "one-cell-a-line", func(t *testing.T, s string) string {
		return replaced(t, s, "\nCorn\n", "\nGrain\nSorghum\n", "None\nCORN\nSOYBN", "None\nSORGH,\nSOYBN\nNone")
	}, func(t *testing.T, r *Record) {
		same(t, "table", table(r.Crops), []string{"Grain Sorghum 91.40 0.00 141 60", "Soybeans 33.25 0.00 44 35"})
		same(t, "elections", lists(r), []string{"ARC-CO grain_sorghum", "ARC-CO soybeans"})
	}},
	{"one cell a line, an empty list lost: not guessed", "one-cell-a-line", func(t *testing.T, s string) string { return replaced(t, s, "None\nCORN\nSOYBN", "CORN\nSOYBN") },
		func(t *testing.T, r *Record) {
			if len(r.Elections) != 0 || !said(r.Asked, "which election", "CORN") {
				t.Errorf("elections %v, asked %v", r.Elections, r.Asked)
			}
			unread(t, r, 1)
		}},
	{"ARC-IC for the whole farm", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "          None                                CORN                                    SOYBN", "          CORN, SOYBN                         None                                    None")
	}, func(t *testing.T, r *Record) {
		same(t, "elections", lists(r), []string{"ARC-IC corn", "ARC-IC soybeans"})
		if made, _ := r.madeFarm(findInvented); len(made.Record) != 2 || len(r.Warnings) != 0 {
			t.Errorf("record %v, warnings %v", made.Record, r.Warnings)
		}
	}},
	{"ARC-IC beside another election", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "          None                                CORN ", "          CORN                                None ")
	}, func(t *testing.T, r *Record) {
		warned(t, r, "1 crops stand under ARC-IC and 1 under other elections")
		if made, asked := r.madeFarm(findInvented); len(made.Record) != 0 || !said(asked, "ARC-IC beside other elections") {
			t.Errorf("record %v, asked %v", made.Record, asked)
		}
	}},
	{"a crop in two lists", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "          SOYBN", "          SOYBN, CORN") },
		func(t *testing.T, r *Record) {
			warned(t, r, "Corn has 91.4 base acres and stands in 2 lists")
			if made, asked := r.madeFarm(findInvented); len(made.Record) != 1 || !said(asked, "CORN stands under ARC-CO and under PLC") {
				t.Errorf("record %v, asked %v", made.Record, asked)
			}
		}},
	{"a blank yield beside a HIP", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "141             60", "                60", "                                141", "")
	}, func(t *testing.T, r *Record) {
		same(t, "table", table(r.Crops)[:1], []string{"Corn 91.40 0.00 - 60"})
		if made, asked := r.madeFarm(findInvented); made.Bases[0].PaymentYield != nil || show(*made.Bases[0].IrrigatedShare) != "0.6" || !said(asked, "PLC yield of Corn on tract 8101") {
			t.Errorf("bases %v, asked %v", bases(made), asked)
		}
	}},
	{"a crop that is not known", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "Corn    ", "Teosinte") },
		func(t *testing.T, r *Record) {
			made, asked := r.madeFarm(findInvented)
			same(t, "bases", bases(made), []string{"soybeans 33.25 @44 tract 8101 irrigated 0.35"})
			if r.Crops[0].Name != "Teosinte" || len(asked) != 1 || !said(asked, `"Teosinte" is not known`) {
				t.Errorf("asked %v", asked)
			}
		}},
	{"an election code that is not known", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "          SOYBN", "          BEANZ") },
		func(t *testing.T, r *Record) {
			if r.Elections[1].Code != "BEANZ" || len(r.Asked) != 1 || !said(r.Asked, `"BEANZ" is not known`) {
				t.Errorf("elections %v, asked %v", r.Elections, r.Asked)
			}
			warned(t, r, "Soybeans has 33.25 base acres and stands in 0 lists")
		}},
	{"a code by the first letters of a crop of the table", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "Soybeans ", "Safflower", "          SOYBN", "          SAFFL")
	}, func(t *testing.T, r *Record) {
		same(t, "elections", lists(r), []string{"ARC-CO corn", "PLC safflower"})
	}},
	{"letters for digits, as scans have them", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "91.40", "9l.4O") },
		func(t *testing.T, r *Record) {
			if r.Crops[0].Base.Known || r.Crops[0].Base.Text != "9l.4O" || !said(r.Asked, "base acres of Corn", `"9l.4O"`) || !said(r.Warnings, "add up to 33.25", "124.65") {
				t.Errorf("asked %v, warnings %v", r.Asked, r.Warnings)
			}
		}},
	{"a total that is not the sum", "one-tract", func(t *testing.T, s string) string { return strings.Replace(s, "124.65", "124.85", 1) },
		func(t *testing.T, r *Record) {
			warned(t, r, "base acres of the farm add up to 124.65, and the print has 124.85 as their total")
		}},
	{"a tract that differs from the farm", "one-tract", func(_ *testing.T, s string) string {
		i := strings.LastIndex(s, "91.40")
		return s[:i] + "90.40" + s[i+5:]
	}, func(t *testing.T, r *Record) {
		if len(r.Warnings) != 2 || !said(r.Warnings, "base acres of Corn are 91.4 on the farm, and 90.4 on its tracts") || !said(r.Warnings, "tract 8101 add up to 123.65") {
			t.Errorf("warnings %v", r.Warnings)
		}
		made, asked := r.madeFarm(findInvented)
		same(t, "bases", bases(made), []string{"corn 91.4 @141 irrigated 0.6", "soybeans 33.25 @44 tract 8101 irrigated 0.35"})
		if !said(asked, "base of Corn by tract is not the farm's") {
			t.Errorf("asked %v", asked)
		}
	}},
	{"a page that is missing", "three-tracts", func(_ *testing.T, s string) string { return s[:strings.LastIndex(s, "\f")] },
		func(t *testing.T, r *Record) {
			if !said(r.Warnings, "counts 3 tracts, and 2 are in the text") || !said(r.Warnings, "base acres of Wheat are 55.1 on the farm, and 25.1 on its tracts") {
				t.Errorf("warnings %v", r.Warnings)
			}
			if made, _ := r.madeFarm(findInvented); show(made.BaseAcres()) != "1360.7" {
				t.Errorf("base %s, want all 1360.7 of the farm's table", show(made.BaseAcres()))
			}
		}},
	{"a tract of which only the second page is there", "three-tracts", func(_ *testing.T, s string) string {
		at := strings.Index(s, " Tract Number")
		return s[:at] + s[strings.Index(s, "\f"):]
	}, func(t *testing.T, r *Record) {
		if len(r.Parts) != 3 || !said(r.Warnings, "tract 8201 goes on here, and its beginning is not in the text") {
			t.Errorf("%d tracts, warnings %v", len(r.Parts), r.Warnings)
		}
		if _, asked := r.madeFarm(findInvented); !said(asked, "county of tract 8201 is not on the print") {
			t.Errorf("asked %v", asked)
		}
	}},
	{"a label and a line that are not known", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, " Recon ID                        : None\n Transferred", " Base Pledge                     : 42\n Transferred", "         Soybeans                      33.25             0.00                                44              35",
			"         Soybeans                      33.25             0.00                                44              35\n         *** see the county office")
	}, func(t *testing.T, r *Record) {
		if r.Extra[0].Label != "Base Pledge" || r.Extra[0].Value[0] != "42" {
			t.Errorf("kept %v", r.Extra)
		}
		unread(t, r, 1)
		if u := r.Unread[0]; u.Text != "*** see the county office" || u.First != (Place{1, 27}) || u.Section != inCrops {
			t.Errorf("not understood %+v", u)
		}
		same(t, "table", table(r.Crops), samples[0].crops)
	}},
	{"an eligibility that is neither", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, ": Eligible", ": Pending") },
		func(t *testing.T, r *Record) {
			if made, asked := r.madeFarm(findInvented); made.Idle20092017 || len(asked) != 1 || !said(asked, `G/I/F eligibility is "Pending"`) {
				t.Errorf("asked %v", asked)
			}
		}},
	{"16-bit text of Windows", "one-tract", func(_ *testing.T, s string) string {
		b := []byte{0xff, 0xfe}
		for _, u := range utf16.Encode([]rune(s)) {
			b = append(b, byte(u), byte(u>>8))
		}
		return string(b)
	}, func(t *testing.T, r *Record) { asSample(t, r, "one-tract"); unread(t, r, 0) }},
	{"8-bit text of Windows", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "  :", "\xa0:", "MADEUP", "MAD\xc9UP") },
		func(t *testing.T, r *Record) { asSample(t, r, "one-tract"); unread(t, r, 0) }},
	{"a crop's name on two lines", "unassigned", func(t *testing.T, s string) string {
		return replaced(t, s, "         Unassigned Generic Base       12.50 ", "         Unassigned Generic\n         Base                          12.50 ")
	}, func(t *testing.T, r *Record) { asSample(t, r, "unassigned"); unread(t, r, 0) }},
	{"names with commas and hyphens", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "Corn                  ", "Rice, Long Grain      ", "Soybeans       ", "Rice-Med Grain ", "          SOYBN", "RICE-MED GRAIN", "CORN      ", "RICE, LONG")
	}, func(t *testing.T, r *Record) {
		made, _ := r.madeFarm(findInvented)
		same(t, "bases", bases(made), []string{"long_grain_rice 91.4 @141 tract 8101 irrigated 0.6", "medium_grain_rice 33.25 @44 tract 8101 irrigated 0.35"})
		if !said(r.Asked, `the election code "RICE" is not known`) { // "RICE, LONG" is two codes, and RICE may be either crop
			t.Errorf("asked %v", r.Asked)
		}
	}},
	{"an election of a crop without base", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "          SOYBN", "          SOYBN, OATS") },
		func(t *testing.T, r *Record) { warned(t, r, "OATS stands under PLC and has 0 base acres") }},
	{"a crop table without its title and headings", "one-tract", func(_ *testing.T, s string) string {
		from := strings.Index(s, "DCP Crop Data")
		return s[:from] + s[strings.Index(s, "         Corn  "):]
	}, func(t *testing.T, r *Record) {
		same(t, "elections", lists(r), samples[0].lists)
		if len(r.Crops) != 0 || !said(r.Asked, "Corn 91.40 0.00 141 60", "is it base acres?") {
			t.Errorf("asked %v", r.Asked)
		}
	}},
	{"a land block without EWP", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "WBP      EWP      WRP", "WBP      WRP", "130.10          0.00     0.00", "130.10          0.00")
	}, func(t *testing.T, r *Record) { asSample(t, r, "one-tract"); unread(t, r, 0) }},
	{"a land row with a figure too many", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "0.00         Active", "0.00     7.77         Active")
	},
		func(t *testing.T, r *Record) {
			if r.Landed("cropland").Known || !said(r.Warnings, "another number of figures") {
				t.Errorf("cropland %v, warnings %v", r.Landed("cropland"), r.Warnings)
			}
			unread(t, r, 1)
		}},
	{"a crop row with a figure too many", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "44              35", "44              35    9")
	},
		func(t *testing.T, r *Record) {
			same(t, "table", table(r.Crops), samples[0].crops[:1])
			if !said(r.Asked, "the row", "Soybeans 33.25", "is not understood") {
				t.Errorf("asked %v", r.Asked)
			}
		}},
	{"an irrigated percentage over 100", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "44              35", "44              350")
	},
		func(t *testing.T, r *Record) { same(t, "table", table(r.Crops), samples[0].crops[:1]); unread(t, r, 1) }},
	{"base above cropland", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "130.10", "120.10") },
		func(t *testing.T, r *Record) {
			if len(r.Warnings) != 2 || !said(r.Warnings, "base and CRP acres of the farm are 124.65, and cropland with double-cropped acres is 120.1") || !said(r.Warnings, "of tract 8101") {
				t.Errorf("warnings %v", r.Warnings)
			}
		}},
	{"tract yields off the farm's", "three-tracts", func(t *testing.T, s string) string { return replaced(t, s, "139             8", "143             8") },
		func(t *testing.T, r *Record) {
			if len(r.Warnings) != 2 || !said(r.Warnings, "the PLC yield of Corn is 143 on the farm, and 138.67 on its tracts on average") {
				t.Errorf("warnings %v", r.Warnings)
			}
		}},
	{"an older print with CTAP yields", "older", func(t *testing.T, s string) string {
		return replaced(t, s, "140.1                      37", "140.1        33            37", "22.5                       50", "22.5         50              ")
	}, func(t *testing.T, r *Record) {
		same(t, "table", table(r.Crops), []string{"OATS 22.5 0.0 - -", "WHEAT 140.1 0.0 37 -", "SUNFLOWER SEED 18.4 0.0 1,105 -"})
		if _, asked := r.madeFarm(findInvented); !said(asked, "PLC yield of OATS on tract 8401 is not on the print") {
			t.Errorf("asked %v", asked)
		}
	}},
	{"a county nobody knows stays as printed", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "HEATHER RIDGE", "NOWHERE HILL") },
		func(t *testing.T, r *Record) {
			made, asked := r.madeFarm(findInvented)
			if made.County != "NOWHERE HILL, NEBRASKA" || made.Bases[0].County != "" || len(asked) != 1 || !said(asked, "NOWHERE HILL, NEBRASKA is not found") {
				t.Errorf("county %q, asked %v", made.County, asked)
			}
		}},
	{"a farm number that is no number", "one-tract", func(t *testing.T, s string) string { return replaced(t, s, "FARM : 6101", "FARM : 61O1") },
		func(t *testing.T, r *Record) {
			if !said(r.Asked, `the farm number is printed as "61O1"`) {
				t.Errorf("asked %v", r.Asked)
			}
		}},
	{"notes of the office", "one-tract", func(t *testing.T, s string) string {
		return replaced(t, s, "NOTES\n", "NOTES\n Base was moved in 2019\n      12.50 acres to farm 6105\n")
	},
		func(t *testing.T, r *Record) {
			asSample(t, r, "one-tract")
			if len(r.Notes) != 2 || r.Notes[1].Text != "12.50 acres to farm 6105" {
				t.Errorf("notes %v", r.Notes)
			}
			unread(t, r, 0)
		}},
}

// TestVariations: what copying and slips do to a print changes no figure unseen.
func TestVariations(t *testing.T) {
	for _, v := range variations {
		t.Run(v.name, func(t *testing.T) {
			records := parsed(t, v.change(t, sample(t, v.from)))
			if len(records) != 1 {
				t.Fatalf("%d records, want 1", len(records))
			}
			v.check(t, records[0])
		})
	}
	fmt.Printf("%d variations of prints read\n", len(variations))
}

// TestPacket: many farms in one text are apart, in their order, with or without form
// feeds; the text of one cell a line among them too, given by itself.
func TestPacket(t *testing.T) {
	names := []string{"three-tracts", "older", "one-tract", "unassigned"}
	for _, between := range []string{"\f", "\n"} {
		var all []string
		for _, name := range names {
			text := sample(t, name)
			if between == "\n" {
				text = strings.ReplaceAll(text, "\f", "")
			}
			all = append(all, text)
		}
		records := parsed(t, strings.Join(all, between))
		if len(records) != len(names) {
			t.Fatalf("%d records, want %d", len(records), len(names))
		}
		for i, name := range names {
			asSample(t, records[i], name)
			if i > 0 && slices.ContainsFunc(records[i].Crops, func(c *Crop) bool { return c.Base.Place.Line <= records[i-1].Total.Base.Place.Line }) {
				t.Errorf("%s: places do not go on through the packet", name)
			}
		}
	}
	twice := parsed(t, sample(t, "one-tract")+"\f"+sample(t, "one-tract"))
	if len(twice) != 2 {
		t.Errorf("the same print twice is %d records, want 2", len(twice))
	}
}
