package batch

import (
	"testing"
)

// Two shares of a table have parts of the same number; their labels must differ, or
// farms of both would become one when the shares are read together.
func TestLabelsOfSharesDiffer(t *testing.T) {
	one, two := newLabels("01of02-", 1, true), newLabels("02of02-", 1, true)
	if one.farm("99001-1") == two.farm("99003-7") {
		t.Errorf("both are %q", one.farm("99001-1"))
	}
	if got := newLabels("", 3, true).farm("99001-1"); got != "farm 3-1" {
		t.Errorf("without shares: %q", got)
	}
	if got := newLabels("01of02-", 1, false).farm("99001-1"); got != "99001-1" {
		t.Errorf("without a mask: %q", got)
	}
}
