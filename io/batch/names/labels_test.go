package names

import (
	"testing"
)

// Two shares of a table have parts of the same number; their labels must differ, or
// farms of both would become one when the shares are read together.
func TestLabelsOfSharesDiffer(t *testing.T) {
	one, two := New("01of02-", 1, true, nil), New("02of02-", 1, true, nil)
	if one.Farm("99001-1") == two.Farm("99003-7") {
		t.Errorf("both are %q", one.Farm("99001-1"))
	}
	if got := New("", 3, true, nil).Farm("99001-1"); got != "farm 3-1" {
		t.Errorf("without shares: %q", got)
	}
	if got := New("01of02-", 1, false, nil).Farm("99001-1"); got != "99001-1" {
		t.Errorf("without a mask: %q", got)
	}
}
