package terminal

import (
	"strings"
	"testing"
	"time"
)

// 500 of 2,000 rows in 10 seconds are 50 a second; the other 1,500 take 30 seconds. A
// quarter of thirty places is seven.
func TestLineOfTheBar(t *testing.T) {
	b := bar{steps: 2000, what: "rows", rate: true}
	if got, want := b.line(500, 10*time.Second), "fencerow: rows  25% ["+strings.Repeat("=", 7)+strings.Repeat(" ", 23)+"] 500 of 2000, 50 a second, 30s left"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	plain := bar{steps: 3, what: "counties"}
	for step, want := range map[int]string{0: "counties   0% [ ", 3: "counties 100% [===", 9: "counties 100% [==="} {
		if got := plain.line(step, time.Second); !strings.Contains(got, want) || strings.Contains(got, "left") {
			t.Errorf("step %d: %q, want %q", step, got, want)
		}
	}
	if none := (&bar{what: "rows", rate: true}).line(0, 0); !strings.HasPrefix(none, "fencerow: rows   0%") {
		t.Errorf("no rows: %q", none)
	}
}

// A shorter line leaves nothing of a longer one, the end leaves an empty line, and what
// follows at once is not written.
func TestBarIsWrittenOver(t *testing.T) {
	var out strings.Builder
	now := time.Unix(100, 0)
	b := bar{w: &out, steps: 2, what: "counties", begun: now}
	b.put("long line")
	b.put("short")
	if want := "\rlong line\rlong line\rshort    \rshort"; out.String() != want {
		t.Errorf("%q, want %q", out.String(), want)
	}
	out.Reset()
	b.reach(1, now.Add(time.Second))
	b.reach(2, now.Add(time.Second+seldom/2))
	if strings.Contains(out.String(), "100%") || !strings.Contains(out.String(), " 50%") {
		t.Errorf("%q", out.String())
	}
	out.Reset()
	Progress{&b}.Done()
	if left := out.String(); strings.Trim(left, "\r ") != "" || b.width != 0 {
		t.Errorf("left on the line: %q", left)
	}
}
