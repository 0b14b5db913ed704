package countyname

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Codes as the agencies' tables have them, each looked up there by hand: F is FSA's
// county table of ARC-CO for program year 2025 (2019 to 2025 in one file), N is
// NASS's county yields, B is FSA's base acres of 2014.
var found = []struct{ text, code, from string }{
	{"Story, Iowa", "19169", "F: Iowa, Story"},
	{"Story County, IA", "19169", "F"},
	{"story ia", "19169", "F"},
	{"STORY, IOWA", "19169", "F"},
	{"Iowa, Story", "19169", "F"},
	{"IA - Story County", "19169", "F"},
	{"Story (Iowa)", "19169", "F"},
	{"  Story   County ,  Iowa ", "19169", "F"},
	{"Story Co., Iowa", "19169", "F"},
	{"Story Co", "19169", "F: no other State has a Story"},
	{"Story", "19169", "F"},
	{"19169", "19169", "F"},
	{"19-169", "19169", "F"},
	{"19 169", "19169", "F"},
	{"1001", "01001", "F: Alabama, Autauga"},
	{"1-001", "01001", "F"},
	{"01001", "01001", "F"},
	{"Autauga, Alabama", "01001", "F"},
	{"DeKalb, IL", "17037", "F: Illinois, DeKalb"},
	{"De Kalb County, Illinois", "17037", "F of 2014: De Kalb"},
	{"dekalb il", "17037", "F of 2019: Dekalb"},
	{"De Kalb, Georgia", "13089", "B: GEORGIA, DE KALB"},
	{"LaSalle, IL", "17099", "F: Illinois, LaSalle"},
	{"La Salle County, IL", "17099", "F"},
	{"La Salle Parish, Louisiana", "22059", "F: Louisiana, La Salle"},
	{"St. Louis County, MO", "29189", "F: Missouri, St. Louis"},
	{"Saint Louis, Missouri", "29189", "F"},
	{"St Louis, MO.", "29189", "F"},
	{"St. Clair, Illinois", "17163", "F: Illinois, St. Clair"},
	{"Saint Clair County, IL", "17163", "F"},
	{"Ste. Genevieve, MO", "29193", "F: Missouri, Ste. Genevieve; NASS has 29186, which FSA does not use"},
	{"Sainte Genevieve, Missouri", "29193", "F"},
	{"Doña Ana, New Mexico", "35013", "F: New Mexico, Dona Ana"},
	{"Dona Ana, NM", "35013", "F"},
	{"Don\u0303a Ana County, N.M.", "35013", "F"},
	{"Prince George's, MD", "24033", "F: Maryland, Prince George's"},
	{"Prince George’s County, Maryland", "24033", "F"},
	{"Queen Annes, MD", "24035", "F: Maryland, Queen Anne's"},
	{"O'Brien, Iowa", "19141", "F: Iowa, O'Brien"},
	{"obrien county ia", "19141", "F"},
	{"King & Queen, VA", "51097", "F: Virginia, King and Queen"},
	{"McLean County, Illinois", "17113", "F: Illinois, McLean"},
	{"Mc Lean, Illinois", "17113", "F"},
	{"Lac qui Parle, Minnesota", "27073", "F: Minnesota, Lac qui Parle"},
	{"Lac-qui-Parle MN", "27073", "F"},
	{"Fond du Lac, WI", "55039", "F: Wisconsin, Fond du Lac"},
	{"West Baton Rouge Parish, LA", "22121", "F: Louisiana, West Baton Rouge"},
	{"Delaware, Ohio", "39041", "F: Ohio, Delaware"},
	{"Iowa County, Wisconsin", "55049", "F: Wisconsin, Iowa"},
	{"Iowa, Iowa", "19095", "F: Iowa, Iowa"},
	{"Ohio, Indiana", "18115", "F: Indiana, Ohio"},
	{"Mineral, West Virginia", "54057", "F: West Virginia, Mineral"},
	{"Oglala Lakota, South Dakota", "46113", "F; NASS has 46102, which FSA left after 2019"},
	{"Shannon, SD", "46113", "B: SOUTH DAKOTA, SHANNON, its name until 2015"},
	{"Albemarle, Virginia", "51003", "F: Albemarle-Charlottesville City; N: ALBEMARLE"},
	{"Charlottesville City, VA", "51003", "F: Albemarle-Charlottesville City"},
	{"Chesapeake City, Virginia", "51550", "F: Virginia, Chesapeake"},
	{"Suffolk City, VA", "51800", "F: Virginia, Suffolk"},
	{"Bedford, Virginia", "51019", "F; 51515, the city, stands in tables until 2023 only"},
	{"East Polk, Minnesota", "27119", "F: Minnesota, East Polk"},
	{"Palo_Alto, Iowa", "19147", "F of 2020: Palo_Alto"},
	{"Adams, CO", "08001", "F: Colorado, Adams"},
	{"Weld CO", "08123", "F: Colorado, Weld"},
	{"30015a", "30015A", "F: Montana, Chouteau, sub-county A"},
	{"Chouteau A, Montana", "30015A", "F"},
	{"North Custer, Idaho", "16059", "F: Lemhi-North Custer"},
	{"99001", "99001", "State 99 marks invented counties"},
	{"99003A", "99003A", "the same"},
}

// TestFound: 60 spellings of counties and more are found.
func TestFound(t *testing.T) {
	for _, c := range found {
		if code, fault := Find("county", c.text); code != c.code || fault != nil {
			t.Errorf("%q is %q, %v, want %s (%s)", c.text, code, fault, c.code, c.from)
		}
	}
	fmt.Printf("%d spellings of counties found\n", len(found))
}

// refused are texts that no one county is meant by. near are counties that the hint
// has to name, by their codes in the tables of found.
var refused = []struct {
	text, reason string
	near         []string
}{
	{"Stroy, Iowa", "not known in Iowa", []string{"19169"}},
	{"Stori County, IA", "not known in Iowa", []string{"19169"}},
	{"Story, Iwoa", "without its state", []string{"19169"}},
	{"Story, Illinois", "not known in Illinois", []string{"19169"}},
	{"Storey, Iowa", "not known in Iowa", []string{"19169"}},
	{"Mc Claen, IL", "not known in Illinois", []string{"17113"}},
	{"St. Louis City, MO", "not known in Missouri", []string{"29189"}},
	{"Do Kalb, IL", "not known in Illinois", []string{"17037"}},
	{"Lancster, Nebraska", "not known in Nebraska", []string{"31109"}},
	{"Pottawatamie, Iowa", "not known in Iowa", []string{"19155", "19156"}},
	{"Washington", "counties", []string{"01129"}},
	{"Washington County", "counties", []string{"01129"}},
	{"Adams Co", "counties", []string{"08001"}}, // Colorado or county?
	{"Iowa", "counties", []string{"19095", "55049"}},
	{"Polk, MN", "2 counties", []string{"27119", "27120"}},
	{"St. Louis, Minnesota", "2 counties", []string{"27137", "27138"}},
	{"Otter Tail, MN", "2 counties", []string{"27111", "27112"}},
	{"Chouteau, Montana", "3 counties", []string{"30015", "30015A", "30015B"}},
	{"King, Washington", "2 counties", []string{"53033", "53061"}},
	{"Alder, Iowa", "not known in Iowa", nil},
	{"Iowa State", "not known in Iowa", nil},
	{"19-16", `"19-16"`, nil},
	{"191690", `"191690"`, nil},
	{"9901", `"9901"`, nil}, // 09901 is no county of Connecticut
	{"169", `"169"`, nil},
	{"", "without its state", nil},
	{"County", "without its state", nil},
}

// TestRefused: 20 texts and more are refused; the hint names at most three counties
// and says what to write.
func TestRefused(t *testing.T) {
	for _, c := range refused {
		code, fault := Find("county", c.text)
		if fault == nil {
			t.Errorf("%q is %s, want a refusal", c.text, code)
			continue
		}
		if !strings.Contains(fault.Reason, c.reason) || !strings.Contains(fault.Reason, strconv.Quote(c.text)) {
			t.Errorf("%q: %q, want %q in it", c.text, fault.Reason, c.reason)
		}
		if named := strings.Count(fault.Hint, "("); named > mostSuggested || !strings.Contains(fault.Hint, "five digits") {
			t.Errorf("%q: the hint %q names %d", c.text, fault.Hint, named)
		}
		for _, near := range c.near {
			if !strings.Contains(fault.Hint, "("+near+")") {
				t.Errorf("%q: %s is not in the hint %q", c.text, near, fault.Hint)
			}
		}
	}
	fmt.Printf("%d texts refused\n", len(refused))
}

// parts are spellings of old tables for a part of a county that FSA divides: the
// other part has as good a right to them, so they are refused.
var parts = map[string][]string{
	"27111": {"Otter Tail"},
	"27119": {"Polk"},
	"27137": {"St Louis"},
	"31165": {"Sioux"},
}

// TestSpellingsThatChange: of the codes whose name FSA's county tables spell in
// several ways, every spelling with its State finds the code.
func TestSpellingsThatChange(t *testing.T) {
	changed, spellings := 0, 0
	refusedParts := map[string][]string{}
	all := spellingsOf(t)
	for _, code := range slices.Sorted(maps.Keys(all)) {
		var names []string
		for _, name := range slices.Sorted(maps.Keys(all[code])) {
			if all[code][name].rank == 3 {
				names = append(names, name)
			}
		}
		if len(names) < 2 {
			continue
		}
		changed++
		for _, name := range names {
			spellings++
			got, fault := FindIn("county", code[:stateDigits], name)
			if fault != nil {
				refusedParts[code] = append(refusedParts[code], name)
			} else if got != code {
				t.Errorf("%s of State %s is %s, want %s", name, code[:stateDigits], got, code)
			}
		}
	}
	if !maps.EqualFunc(refusedParts, parts, slices.Equal) {
		t.Errorf("refused: %v, want %v", refusedParts, parts)
	}
	if changed != 112 { // counted in the same files by other means
		t.Errorf("%d codes change their spelling, want 112", changed)
	}
	fmt.Printf("%d codes change their spelling between FSA's county tables: %d spellings, %d found, %d refused as names of two counties\n", changed, spellings, spellings-len(parts), len(parts))
}

// withoutCode are the names of FSA's base acres of 2021 to 2023 that are refused: three
// are names of several counties, the others stand in no table with a code.
var withoutCode = []string{"Arecibo, Puerto Rico", "Chaffee, Colorado", "Chouteau, Montana", "Honolulu, Hawaii", "King, Washington", "Northwest Nye, Nevada", "South Custer, Idaho", "Umatilla, Oregon"}

// TestNamesWithoutCodes: FSA's base acres of 2021 to 2023 have names alone; each is
// found in its State, but for a few.
func TestNamesWithoutCodes(t *testing.T) {
	type county struct{ state, name string }
	seen := map[county]bool{}
	wrong := map[string]int{}
	for row := range rowsOf(t, "fsa/county_base_acres_2014_2023.csv.gz") {
		if c := (county{row("state"), row("county")}); c.name != "" && (row("county_fips") == "" || row("county_fips") == "NA") {
			seen[c] = true
		}
	}
	for c := range seen {
		if _, fault := FindIn("county", State(c.state), c.name); fault != nil {
			wrong[c.name+", "+c.state]++
		}
	}
	if got := slices.Sorted(maps.Keys(wrong)); !slices.Equal(got, withoutCode) {
		t.Errorf("refused: %q, want %q", got, withoutCode)
	}
	fmt.Printf("%d names of FSA's base acres without a code: %d found\n", len(seen), len(seen)-len(wrong))
}

func TestState(t *testing.T) {
	for text, want := range map[string]string{"Iowa": "19", "IOWA": "19", "ia": "19", "I.A.": "19", "19": "19", "1": "01", "19.0": "19", "new  york": "36", "N.Y.": "36", "99": "99", "PR": "72", "03": "", "Nowhere": "", "": ""} {
		if got := State(text); got != want {
			t.Errorf("State(%q) is %q, want %q", text, got, want)
		}
	}
}
