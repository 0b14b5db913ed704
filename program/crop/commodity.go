package crop

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"
)

// Commodity is the key of one of the 23 separately priced covered commodities
// of 7 U.S.C. 9011(6), as the agency's price tables list them.
type Commodity string

// The 23 commodities.
const (
	Wheat                 Commodity = "wheat"
	Oats                  Commodity = "oats"
	Barley                Commodity = "barley"
	Corn                  Commodity = "corn"
	GrainSorghum          Commodity = "grain_sorghum"
	LongGrainRice         Commodity = "long_grain_rice"
	MediumGrainRice       Commodity = "medium_grain_rice"
	TemperateJaponicaRice Commodity = "temperate_japonica_rice"
	Soybeans              Commodity = "soybeans"
	SunflowerSeed         Commodity = "sunflower_seed"
	Rapeseed              Commodity = "rapeseed"
	Canola                Commodity = "canola"
	Safflower             Commodity = "safflower"
	Flaxseed              Commodity = "flaxseed"
	MustardSeed           Commodity = "mustard_seed"
	Crambe                Commodity = "crambe"
	SesameSeed            Commodity = "sesame_seed"
	Peanuts               Commodity = "peanuts"
	DryPeas               Commodity = "dry_peas"
	Lentils               Commodity = "lentils"
	SmallChickpeas        Commodity = "small_chickpeas"
	LargeChickpeas        Commodity = "large_chickpeas"
	SeedCotton            Commodity = "seed_cotton"
)

var commodities = []Commodity{
	Wheat, Oats, Barley, Corn, GrainSorghum, LongGrainRice, MediumGrainRice, TemperateJaponicaRice,
	Soybeans, SunflowerSeed, Rapeseed, Canola, Safflower, Flaxseed, MustardSeed, Crambe, SesameSeed,
	Peanuts, DryPeas, Lentils, SmallChickpeas, LargeChickpeas, SeedCotton,
}

// Commodities returns the 23 commodities in the fixed order used by every table.
func Commodities() []Commodity { return append([]Commodity(nil), commodities...) }

// Index returns the place of c in Commodities, or -1.
func (c Commodity) Index() int {
	for i, k := range commodities {
		if k == c {
			return i
		}
	}
	return -1
}

// Name returns the commodity in words, lower case: "long grain rice".
func (c Commodity) Name() string { return strings.ReplaceAll(string(c), "_", " ") }

// Classes returns the names under which a rule may speak of c, most specific
// first: the key, then the statute's group, then the unit it is priced in.
func (c Commodity) Classes() []string {
	classes := []string{string(c)}
	switch c {
	case SunflowerSeed, Rapeseed, Canola, Safflower, Flaxseed, MustardSeed, Crambe, SesameSeed:
		classes = append(classes, "other_oilseeds") // 7 U.S.C. 9011(13)
	}
	return append(classes, c.Unit().Mass)
}

//go:embed aliases.csv
var aliasFile string

var aliases = sync.OnceValue(func() map[string]Commodity {
	rows, err := csv.NewReader(strings.NewReader(aliasFile)).ReadAll()
	if err != nil {
		panic("program/crop/aliases.csv: " + err.Error())
	}
	known := map[string]Commodity{}
	for _, c := range commodities {
		known[fold(string(c))] = c
	}
	for _, row := range rows[1:] {
		known[fold(row[1])] = Commodity(row[0])
	}
	return known
})

// ParseCommodity returns the commodity for a key or for any spelling the
// agency uses, whatever its case, spaces or footnote marks.
func ParseCommodity(text string) (Commodity, bool) {
	c, ok := aliases()[fold(text)]
	return c, ok
}

// fold brings spellings together: "Rice (med/short grain) 6/" and
// "rice_med/short grain" become the same word.
func fold(text string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	if i := strings.LastIndexByte(text, ' '); i > 0 && strings.Trim(text[i+1:], "0123456789") == "/" {
		text = text[:i] // a footnote mark such as " 6/" or " /2"
	}
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '_' || r == '-' || r == '(' || r == ')' || r == ',' || r == '.' {
			return -1
		}
		return r
	}, text)
}
