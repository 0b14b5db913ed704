package source

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
)

// Typed is one farm as arguments say it, for who has no file.
type Typed struct {
	County string   // as in an operation file
	Bases  []string // "corn:120:171" or "corn:120:171@0.35"
	Share  string   // of all base, as 0.5 or 50%; "": all of it
}

// Given reports whether anything is typed.
func (t Typed) Given() bool { return t.County != "" || len(t.Bases) > 0 || t.Share != "" }

// typedBase takes a base apart: commodity, base acres, PLC payment yield, irrigated share.
// Like typedWord it is compiled when it is first used: most questions have a file.
var typedBase = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^([\pL][\pL _-]*):([0-9][0-9.,]*)(?::([0-9][0-9.,]*))?(?:@([0-9.]+%?))?$`)
})

// typedWord is what may stand in a value of the file without more than quotes.
var typedWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[\pL\pN &,.'’()/%-]+$`) })

// Operation returns the operation file that the arguments stand for. What cannot be one is
// a Wrong; what only the file's reader can tell is left to it.
func (t Typed) Operation() ([]byte, error) {
	switch {
	case !typedWord().MatchString(t.County):
		return nil, Wrong{Field: "county", Reason: fmt.Sprintf("is %q", t.County), Hint: "give the county of the farm, by its five-digit code, or its name and State"}
	case len(t.Bases) == 0:
		return nil, Wrong{Field: "base", Reason: "is not given", Hint: "give crop, base acres and PLC yield, such as --base corn:120:171"}
	case t.Share != "" && !typedWord().MatchString(t.Share):
		return nil, Wrong{Field: "share", Reason: fmt.Sprintf("is %q", t.Share), Hint: "give the share of all base, such as 0.5"}
	}
	share := t.Share
	if share == "" {
		share = "1.0"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "format: fencerow/operation/1\nproducers:\n  - {id: operator, kind: person}\nfarms:\n  - farm: \"1\"\n    county: %q\n    shares: {operator: %s}\n    bases:\n", t.County, share)
	for _, text := range t.Bases {
		part := typedBase().FindStringSubmatch(text)
		if part == nil {
			return nil, Wrong{Field: "base", Reason: fmt.Sprintf("is %q", text), Hint: "give crop, base acres and PLC yield, such as corn:120:171, with an irrigated share corn:120:171@0.35"}
		}
		fmt.Fprintf(&b, "      - {commodity: %q, base_acres: %s", part[1], typedNumber(part[2]))
		if part[3] != "" {
			fmt.Fprintf(&b, ", payment_yield: %s", typedNumber(part[3]))
		}
		if part[4] != "" {
			fmt.Fprintf(&b, ", irrigated_share: %s", part[4])
		}
		b.WriteString("}\n")
	}
	return []byte(b.String()), nil
}

// typedNumber puts a number with a comma into quotes, as it has to stand inside braces.
func typedNumber(text string) string {
	if strings.Contains(text, ",") {
		return `"` + text + `"`
	}
	return text
}
