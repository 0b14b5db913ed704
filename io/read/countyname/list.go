package countyname

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strconv"
	"strings"
	"sync"

	"fencerow/program/crop"
)

//go:embed counties.csv
var countiesCSV string

// county is a row of counties.csv.
type county struct {
	code      string
	newest    int      // program year of FSA's newest county table with it; 0: none has it
	spellings []string // the newest first
}

// state returns the two digits of the county's State.
func (c county) state() string { return c.code[:stateDigits] }

// String is the county as it is suggested: "Story, Iowa (19169)".
func (c county) String() string {
	name := c.spellings[0]
	if name == strings.ToUpper(name) { // its tables know capitals only
		name = capitalized(name)
	}
	if len(c.code) > codeDigits {
		name += " " + c.code[codeDigits:]
	}
	return name + ", " + crop.StateNames[c.state()] + " (" + c.code + ")"
}

// capitalized leaves the first letter of each word a capital.
func capitalized(name string) string {
	all := strings.Fields(name)
	for i, word := range all {
		all[i] = word[:1] + strings.ToLower(word[1:])
	}
	return strings.Join(all, " ")
}

// codeDigits is how many digits a county code has before its sub-county letter.
const codeDigits = 5

// gazetteer is counties.csv, and how its names are looked up.
type gazetteer struct {
	counties []county
	byCode   map[string]int
	named    map[string]map[string][]int // by State and folded name: the counties meant
	folded   [][]string                  // by county: the folded names that may mean it
}

// loaded is the list, read once. It is the program's own file: what is wrong with it
// is found by this package's tests.
var loaded = sync.OnceValue(func() *gazetteer {
	rows, err := csv.NewReader(strings.NewReader(countiesCSV)).ReadAll()
	if err != nil {
		panic("counties.csv: " + err.Error())
	}
	g := &gazetteer{byCode: map[string]int{}, named: map[string]map[string][]int{}}
	for _, row := range rows[1:] {
		newest, _ := strconv.Atoi(row[1])
		g.add(county{row[0], newest, strings.Split(row[2], "|")})
	}
	g.settle()
	g.addParts()
	g.refold()
	return g
})

// add keeps a county under its spellings.
func (g *gazetteer) add(c county) {
	i := len(g.counties)
	g.counties, g.byCode[c.code] = append(g.counties, c), i
	var folded []string
	for _, name := range c.spellings {
		folded = append(folded, fold(name))
		g.name(i, fold(name))
		if len(c.code) > codeDigits {
			g.name(i, fold(name+" "+c.code[codeDigits:]))
		}
	}
	g.folded = append(g.folded, folded)
}

// name lets a folded name mean a county, beside those that it means.
func (g *gazetteer) name(i int, folded string) {
	state := g.counties[i].state()
	if g.named[state] == nil {
		g.named[state] = map[string][]int{}
	}
	if !slices.Contains(g.named[state][folded], i) {
		g.named[state][folded] = append(g.named[state][folded], i)
	}
}

// settle leaves of several counties with one name those of FSA's newest table: a city
// that became part of its county keeps its code in old tables.
func (g *gazetteer) settle() {
	for _, names := range g.named {
		for folded, meant := range names {
			newest := 0
			for _, i := range meant {
				newest = max(newest, g.counties[i].newest)
			}
			names[folded] = slices.DeleteFunc(slices.Clone(meant), func(i int) bool { return g.counties[i].newest < newest })
		}
	}
}

// addParts looks into names that FSA's newest tables join or divide. "East Polk" and
// "West Polk" are both meant by "Polk", whatever old tables called either;
// "Lemhi-North Custer" is meant by "North Custer" where nothing else is.
func (g *gazetteer) addParts() {
	type name struct{ state, folded string }
	divided, latest := map[name][]int{}, map[name]bool{}
	for i, c := range g.counties {
		latest[name{c.state(), g.folded[i][0]}] = true
		parts := strings.FieldsFunc(c.spellings[0], func(r rune) bool { return r == '-' || r == ',' })
		for _, part := range parts {
			all := words(part)
			if len(all) > 1 && directions[all[0]] {
				whole := name{c.state(), joined(all[1:])}
				divided[whole] = append(divided[whole], i)
			}
			if len(parts) > 1 && len(g.named[c.state()][joined(all)]) == 0 {
				g.name(i, joined(all))
			}
		}
	}
	for whole, meant := range divided {
		if len(meant) > 1 && !latest[whole] {
			g.named[whole.state][whole.folded] = meant
		}
	}
}

// refold lists by county the names that may mean it, now that parts are known.
func (g *gazetteer) refold() {
	clear(g.folded)
	for _, names := range g.named {
		for folded, meant := range names {
			for _, i := range meant {
				g.folded[i] = append(g.folded[i], folded)
			}
		}
	}
}

// directions are the words by which FSA tells the parts of a divided county apart.
var directions = map[string]bool{"north": true, "south": true, "east": true, "west": true}

// stateNamed names a State by its code, "state 99" where it is no State.
func stateNamed(code string) string {
	if name := crop.StateNames[code]; name != "" {
		return name
	}
	return "state " + code
}
