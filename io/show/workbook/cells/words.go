package cells

import (
	"fmt"
	"strings"

	"fencerow/program/crop"
)

// NameOf joins parts to a name that every spreadsheet program accepts:
// "price_corn_2026".
func NameOf(parts ...any) string {
	var texts []string
	for _, part := range parts {
		texts = append(texts, fmt.Sprint(part))
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
			return r
		}
		return '_'
	}, strings.Join(texts, "_"))
}

// Capital puts the first letter in upper case.
func Capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// CommodityBaseName is a farm with a commodity and crop year, in words.
func CommodityBaseName(farm string, c crop.Commodity, y crop.CropYear) string {
	return fmt.Sprintf("Farm %s, %s, crop year %d", farm, c.Name(), y)
}

// PlaceName is a county with its name, tract and practice where there are any.
func PlaceName(words ...string) string {
	var said []string
	for _, word := range words {
		if word != "" && word != "all" {
			said = append(said, word)
		}
	}
	return strings.Join(said, ", ")
}

// Wrapped breaks a text into lines of at most so many characters at its spaces.
func Wrapped(text string, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > most {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
