package wording

import (
	"fmt"
	"time"
)

// Date writes a day for people: "November 10, 2026" for "2026-11-10". What is no day is
// returned as it is.
func Date(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return fmt.Sprintf("%s %d, %d", t.Month(), t.Day(), t.Year())
}
