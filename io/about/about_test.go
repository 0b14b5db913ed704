package about

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const list = `format: fencerow/corrections/1
as_of: 2026-12-15
corrections:
  - {id: first, first_wrong: 1.0.0, fixed_in: 1.0.2, wrong: w, affects: x, do: y}
`

// What is no release cannot be named by a list, and sees all of it; a list older than the
// release is said to be.
func TestCheckBy(t *testing.T) {
	name := filepath.Join(t.TempDir(), "corrections.yaml")
	if err := os.WriteFile(name, []byte(list), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		version, released string
		wrong             int
		says              string
	}{
		{"1.0.1", "2026-12-01", 1, "This version gave a wrong figure (1 on the list):"},
		{"1.0.2", "2026-12-16", 0, "No figure of this version is on it.\nThe list is older than this version (December 16, 2026)."},
		{"development", "", 1, "This program is no release"},
	} {
		v := Of(c.version, c.released, "abc")
		if err := v.CheckBy(name); err != nil {
			t.Fatal(err)
		}
		var out strings.Builder
		if err := v.Write(&out); err != nil || len(v.Check.Wrong) != c.wrong || !strings.Contains(out.String(), c.says) {
			t.Errorf("%s: %d wrong, %v\n%s", c.version, len(v.Check.Wrong), err, out.String())
		}
	}
	v := Of("1.0.0", "2026-12-01", "")
	if err := v.CheckBy(name + ".none"); err == nil || v.Check != nil {
		t.Errorf("a list that is not there: %v, %+v", err, v.Check)
	}
}
