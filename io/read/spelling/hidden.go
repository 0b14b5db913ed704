package spelling

import (
	"fmt"
	"unicode"
)

// Hidden names the first character of a text that is not seen, such as one that turns the
// order of letters round or has no width, "U+202E"; "" where there is none. Two names that
// differ by it look the same.
func Hidden(text string) string {
	for _, letter := range text {
		if unicode.Is(unicode.Cf, letter) {
			return fmt.Sprintf("%U", letter)
		}
	}
	return ""
}
