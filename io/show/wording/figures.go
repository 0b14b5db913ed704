package wording

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// Money writes an amount of USD to the cent: "$1,234.50", "-$3.10".
func Money(d *answer.Dollars) string {
	if d == nil {
		return "unknown"
	}
	return signed(float64(*d), 2)
}

// Whole writes an amount to the dollar.
func Whole(d *answer.Dollars) string {
	if d == nil {
		return "unknown"
	}
	return signed(float64(*d), 0)
}

func signed(x float64, decimals int) string {
	text := Grouped(math.Abs(x), decimals)
	if x < 0 && strings.Trim(text, "0.,") != "" {
		return "-$" + text
	}
	return "$" + text
}

// Grouped writes a number with thousands commas.
func Grouped(x float64, decimals int) string {
	text := program.Text(x, decimals)
	number, fraction, _ := strings.Cut(text, ".")
	for i := len(number) - 3; i > 0; i -= 3 {
		number = number[:i] + "," + number[i:]
	}
	if fraction == "" {
		return number
	}
	return number + "." + fraction
}

// Plain writes acres and yields to two decimals, without zeros at the end.
func Plain(d *answer.Dollars) string {
	if d == nil {
		return "unknown"
	}
	text := Grouped(float64(*d), 2)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// Price writes a price in the commodity's unit, and in brackets as the trade quotes
// it.
func Price(c crop.Commodity, p *answer.Price) string {
	if p == nil {
		return "unknown"
	}
	text := program.Text(p.Value, p.Decimals)
	unit, factor := c.TradeUnit()
	if factor == 1 {
		return text
	}
	return fmt.Sprintf("%s (%s %s)", text, Grouped(p.Value*factor, 2), strings.TrimPrefix(unit, "USD/"))
}

// Mark is the word behind a figure that is projected, assumed or unverified, else "".
func Mark(status crop.Status) string {
	if status.Marked() {
		return " (" + string(status) + ")"
	}
	return ""
}

// fewer is what can happen but rounds to no outcome of 100.
const fewer = "fewer than 1"

// Chances writes shares as whole numbers out of 100 that add to 100, by largest
// remainder; what can happen at all is at least "fewer than 1".
func Chances(shares ...*answer.Chance) []string {
	counts := Hundred(shares...)
	words := make([]string, len(shares))
	for i, share := range shares {
		words[i] = fmt.Sprint(counts[i])
		if counts[i] == 0 && *share > 0 {
			words[i] = fewer
		}
	}
	return words
}

// Hundred rounds shares to whole numbers that add to 100, by largest remainder.
func Hundred(shares ...*answer.Chance) []int {
	const all = 100
	counts, rest, left := make([]int, len(shares)), make([]float64, len(shares)), all
	for i, share := range shares {
		exact := all * float64(*share)
		counts[i] = int(exact)
		rest[i] = exact - float64(counts[i])
		left -= counts[i]
	}
	for ; left > 0; left-- {
		next := 0
		for i := range rest {
			if rest[i] > rest[next] {
				next = i
			}
		}
		counts[next]++
		rest[next] = -1
	}
	return counts
}

// InHundred writes one chance out of 100.
func InHundred(c answer.Chance) string {
	n := program.Round(100*float64(c), 0)
	switch {
	case n == 0 && c > 0:
		return fewer
	case n == 100 && c < 1:
		return "over 99"
	}
	return program.Text(n, 0)
}

// Joined lists words as "a", "a and b" or "a, b and c".
func Joined(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Capital puts the first letter of a sentence in upper case.
func Capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// Decimal writes a price with the decimals it is published with.
func Decimal(p *answer.Price) string { return program.Text(p.Value, p.Decimals) }

// Percent writes a share in whole percent: "5 percent".
func Percent(part answer.Chance) string { return program.Text(100*float64(part), 0) + " percent" }

// Sentences joins those that are not empty.
func Sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}

// FirstSentences returns the first n sentences of a text. A sentence ends at a full stop
// before a space and a capital letter, so that "P.L. 119-21" and "vs. corn" end none.
func FirstSentences(text string, n int) string {
	at := 0
	for n > 0 {
		next := strings.Index(text[at:], ". ")
		if next < 0 {
			return text
		}
		at += next + len(". ")
		if at < len(text) && text[at] >= 'A' && text[at] <= 'Z' {
			n--
		}
	}
	return strings.TrimSpace(text[:at])
}

// ShortCount writes a count of outcomes for a table or a picture: "<1" for "fewer than 1".
func ShortCount(count string) string {
	return strings.NewReplacer("fewer than ", "<", "over ", ">").Replace(count)
}
