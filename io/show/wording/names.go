package wording

import (
	"strings"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Farm is the name of a farm among those of an answer: its number, with the county code
// where two farms of the answer share a number. key is "99001-0417".
func Farm(key string, among []answer.FarmPart) string {
	return numberAmong(key, len(among), func(i int) string { return among[i].Farm })
}

// Number is the name of a farm among keys: its number, with the county code where two of
// them share a number.
func Number(key string, keys []string) string {
	return numberAmong(key, len(keys), func(i int) string { return keys[i] })
}

// numberAmong is Number among n keys.
func numberAmong(key string, n int, at func(i int) string) string {
	dash := strings.IndexByte(key, '-')
	if dash < 0 {
		return key
	}
	same := 0
	for i := range n {
		if strings.HasSuffix(at(i), key[dash:]) {
			same++
		}
	}
	if same > 1 {
		return key
	}
	return key[dash+1:]
}

// HomeCounty names the county that keeps the records of a farm: "Alder County", or "county
// 99001" where the name is not known.
func HomeCounty(f answer.FarmPart) string {
	code, _, _ := strings.Cut(f.Farm, "-")
	for _, c := range f.Commodities {
		for _, b := range c.Bases {
			if b.County == code {
				return County(b)
			}
		}
	}
	return "county " + code
}

// County names the county of a base: "Alder County". The agencies' lists leave out the word.
func County(b answer.BasePart) string {
	if b.CountyName == "" {
		return "county " + b.County
	}
	return farm.CountyName(b.County, b.CountyName)
}

// Leads writes a verdict for a table that has the word "leans" in its head.
func Leads(l answer.Leader) string {
	switch l {
	case answer.LeadsPLC, answer.LeadsARCCO:
		return string(l)
	case answer.Close:
		return "toss-up"
	case answer.LittleChance:
		return "little at stake"
	}
	return "unknown"
}

// LastElected writes the program of the last election, "not given" where there is none.
func LastElected(p *farm.Program) string {
	if p == nil {
		return "not given"
	}
	return string(*p)
}

// Programs writes a choice for a whole farm: "corn PLC, soybeans ARC-CO"; ARC-IC holds for
// all crops.
func Programs(choice answer.Choice) string {
	if choice.Individual() {
		return string(farm.ARCIC) + ", the whole farm"
	}
	var words []string
	for _, c := range choice.Commodities() {
		words = append(words, c.Name()+" "+string(choice[c]))
	}
	return strings.Join(words, ", ")
}

// FarmsAndCrops names lines by farm and crop: "99001-0417 grain_sorghum" is "0417 grain
// sorghum", as Farm names farms among those.
func FarmsAndCrops(lines []string, among []answer.FarmPart) (names []string) {
	for _, line := range lines {
		key, crop, _ := strings.Cut(line, " ")
		names = append(names, Farm(key, among)+" "+strings.ReplaceAll(crop, "_", " "))
	}
	return names
}
