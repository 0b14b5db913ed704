package report

import (
	"fmt"
	"math"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// money writes an amount of USD to the cent: "$1,234.50", "-$3.10".
func money(d *answer.Dollars) string {
	if d == nil {
		return "unknown"
	}
	return signed(float64(*d), 2)
}

// whole writes an amount to the dollar.
func whole(d *answer.Dollars) string {
	if d == nil {
		return "unknown"
	}
	return signed(float64(*d), 0)
}

func signed(x float64, decimals int) string {
	text := grouped(math.Abs(x), decimals)
	if x < 0 && strings.Trim(text, "0.,") != "" {
		return "-$" + text
	}
	return "$" + text
}

// grouped writes a number with thousands commas.
func grouped(x float64, decimals int) string {
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

// plain writes acres and yields to two decimals, without zeros at the end.
func plain(d *answer.Dollars) string {
	if d == nil {
		return "unknown"
	}
	text := grouped(float64(*d), 2)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// price writes a price in the commodity's unit, and in brackets as the trade quotes
// it.
func price(c crop.Commodity, p *answer.Price) string {
	if p == nil {
		return "unknown"
	}
	text := program.Text(p.Value, p.Decimals)
	unit, factor := c.TradeUnit()
	if factor == 1 {
		return text
	}
	return fmt.Sprintf("%s (%s %s)", text, grouped(p.Value*factor, 2), strings.TrimPrefix(unit, "USD/"))
}

// mark is the word behind a figure that is projected, assumed or unverified, else "".
func mark(status crop.Status) string {
	if status.Marked() {
		return " (" + string(status) + ")"
	}
	return ""
}

// chances writes shares as whole numbers out of 100 that add to 100, by largest
// remainder; what can happen at all is at least "less than 1".
func chances(shares ...*answer.Chance) []string {
	counts := hundred(shares...)
	words := make([]string, len(shares))
	for i, share := range shares {
		words[i] = fmt.Sprint(counts[i])
		if counts[i] == 0 && *share > 0 {
			words[i] = "less than 1"
		}
	}
	return words
}

// hundred rounds shares to whole numbers that add to 100, by largest remainder.
func hundred(shares ...*answer.Chance) []int {
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

// inHundred writes one chance out of 100.
func inHundred(c answer.Chance) string {
	n := program.Round(100*float64(c), 0)
	switch {
	case n == 0 && c > 0:
		return "less than 1"
	case n == 100 && c < 1:
		return "over 99"
	}
	return program.Text(n, 0)
}

// joined lists words as "a", "a and b" or "a, b and c".
func joined(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// capital puts the first letter of a sentence in upper case.
func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
