package spelling

import (
	"regexp"
	"strconv"
	"strings"

	"fencerow/program/farm"
)

var (
	plainNumber   = regexp.MustCompile(`^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)$`)
	powerNumber   = regexp.MustCompile(`^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)[eE][+-]?[0-9]{1,3}$`)
	groupedNumber = regexp.MustCompile(`^[+-]?[0-9]{1,3}(,[0-9]{3})+(\.[0-9]*)?$`)
	decimalComma  = regexp.MustCompile(`^[+-]?[0-9.]*,[0-9]+$`)
	clearComma    = regexp.MustCompile(`^[+-]?([0-9]*|[1-9][0-9]{0,2}(\.[0-9]{3})+),[0-9]+$`)
	mayBeGrouped  = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2},[0-9]{3}$`)
)

// mostDigits is the most digits a number may have, written in full: a judgement.
const mostDigits = 30

// NotNumber is the fault of what is no number. Reason is what follows `acres is "many", `;
// a kind of file may have a better hint.
var NotNumber = &farm.Fault{Reason: "not a number", Hint: "write a number alone, without unit or words: 120.5"}

var (
	eitherWay = &farm.Fault{Reason: "with a comma that may stand for decimals or for thousands", Hint: "write decimals with a point: 1234.5"}
	tooLong   = &farm.Fault{Reason: "with too many digits", Hint: "look for digits too many"}
)

// Habits say what a kind of file may hold beside plain decimals, dollar signs and
// thousands commas.
type Habits struct {
	// A comma may be a decimal comma: it does not separate values. It is one where it cannot
	// part thousands ("120,5", "0,350", "1.204,5"); "1,204" may be either, and is refused.
	DecimalComma bool
	Powers       bool // powers of ten as spreadsheet programs write them: 1.2e3
}

// IsPlain reports whether a text is a decimal number without anything beside it.
func IsPlain(text string) bool { return plainNumber.MatchString(text) }

// Number returns the number that a text stands for. The fault, if there is one, is
// NotNumber, or says that the comma is ambiguous or the digits too many.
func Number(text string, of Habits) (number float64, fault *farm.Fault) { return times(text, "", of) }

// Share returns the part of one that a text stands for, which may be a percentage:
// "35%" is 0.35. It need not lie between 0 and 1. The faults are those of Number.
func Share(text string, of Habits) (share float64, fault *farm.Fault) {
	if percent, ok := strings.CutSuffix(text, "%"); ok {
		return times(strings.TrimSpace(percent), "e-2", of)
	}
	return times(text, "", of)
}

// mostPlain is the most characters of a number that is read at once: written in full it has
// fewer than mostDigits, also as a percentage.
const mostPlain = 20

// isDigits reports whether a text has digits alone, with at most one point after the first:
// most numbers are written so, and nothing else has to be asked of them.
func isDigits(text string) bool {
	if text == "" || len(text) > mostPlain || text[0] == '.' {
		return false
	}
	points := 0
	for i := range len(text) {
		if c := text[i]; c == '.' {
			points++
		} else if c < '0' || c > '9' {
			return false
		}
	}
	return points <= 1
}

// times returns a number times a power of ten, "" or "e-2".
func times(text, power string, of Habits) (float64, *farm.Fault) {
	if isDigits(text) {
		number, _ := strconv.ParseFloat(text+power, 64) // cannot fail
		return number, nil
	}
	plain := strings.TrimSpace(strings.TrimPrefix(text, "$"))
	ambiguous := of.DecimalComma && !strings.Contains(plain, ".")
	if groupedNumber.MatchString(plain) && !ambiguous {
		plain = strings.ReplaceAll(plain, ",", "")
	}
	if of.DecimalComma && clearComma.MatchString(plain) && !mayBeGrouped.MatchString(plain) {
		plain = strings.Replace(strings.ReplaceAll(plain, ".", ""), ",", ".", 1)
	}
	switch {
	case decimalComma.MatchString(plain):
		return 0, eitherWay
	case !plainNumber.MatchString(plain) && !(of.Powers && power == "" && powerNumber.MatchString(plain)):
		return 0, NotNumber
	}
	number, err := strconv.ParseFloat(plain+power, 64)
	if err != nil || len(strconv.FormatFloat(number, 'f', -1, 64)) > mostDigits {
		return 0, tooLong
	}
	return number + 0, nil // -0 becomes 0
}
