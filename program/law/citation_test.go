package law

import "testing"

// A paragraph follows its source at once, other words after a comma.
func TestCitationOfAParagraph(t *testing.T) {
	for pinpoint, want := range map[string]string{"(a)(2)": "7 U.S.C. 9014(a)(2)", ".53(c)": "7 U.S.C. 9014.53(c)", "": "7 U.S.C. 9014", "sec. 2": "7 U.S.C. 9014, sec. 2"} {
		if got := (Figure{Source: "7 U.S.C. 9014", Pinpoint: pinpoint}).Citation(); got != want {
			t.Errorf("%q: %q, want %q", pinpoint, got, want)
		}
	}
}
