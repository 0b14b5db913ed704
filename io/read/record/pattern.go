package record

import (
	"regexp"
	"sync"
)

// pattern is a regular expression that is compiled when it is first used: a command that
// reads no record does not wait for it.
type pattern func() *regexp.Regexp

func patternOf(text string) pattern {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })
}
