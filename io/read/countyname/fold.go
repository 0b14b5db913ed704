package countyname

import "strings"

// plain turns the letters and signs that people write in several ways into one.
// Dots and apostrophes vanish; all other signs part words.
var plain = strings.NewReplacer(
	"á", "a", "à", "a", "ä", "a", "â", "a", "é", "e", "è", "e", "ë", "e", "ê", "e", "í", "i", "ï", "i", "î", "i",
	"ñ", "n", "ó", "o", "ö", "o", "ô", "o", "ú", "u", "ü", "u", "n\u0303", "n", "\u0301", "",
	"&", " and ", ".", "", "'", "", "’", "", "‘", "")

// kinds are the words after a name that say what kind of place it is. "City" is
// none of them: an independent city is not the county of its name.
var kinds = map[string]bool{"county": true, "parish": true, "borough": true, "co": true, "cnty": true, "cty": true}

// words are the words of a text, folded: small letters without accents, dots and
// hyphens, "saint" as "st".
func words(text string) []string {
	all := strings.FieldsFunc(plain.Replace(strings.ToLower(text)), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	})
	for i, word := range all {
		switch word {
		case "saint":
			all[i] = "st"
		case "sainte":
			all[i] = "ste"
		}
	}
	return all
}

// joined is a name of a county as it is looked up: its words without the last one
// where that is "county" or the like, and without gaps, so that "De Kalb County" is
// "DeKalb".
func joined(all []string) string {
	if n := len(all); n > 1 && kinds[all[n-1]] {
		all = all[:n-1]
	}
	return strings.Join(all, "")
}

// fold is joined for a name as it is written.
func fold(name string) string { return joined(words(name)) }
