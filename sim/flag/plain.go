package flag

import (
	"strconv"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
)

// PlainDollars writes whole dollars as people do: $155,000.
func PlainDollars(amount crop.Money) string {
	digits := program.Text(max(amount, -amount), 0)
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	if amount < 0 && strings.Trim(digits, "0") != "" {
		return "-$" + digits
	}
	return "$" + digits
}

// plainNumber writes a number with as many decimals as it has.
func plainNumber(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// marked adds its status to a figure that is projected, assumed or not confirmed.
func marked(figure string, status crop.Status) string {
	switch status {
	case crop.Projected, crop.Assumed:
		return figure + " (" + string(status) + ")"
	case crop.Unverified:
		return figure + " (not confirmed)"
	}
	return figure
}
