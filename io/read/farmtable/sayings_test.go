package farmtable

import "testing"

// What was said of a fact is found, the newest, whether a farm has few facts or many.
func TestSayings(t *testing.T) {
	var s sayings
	for year := range 3 * mostLookedThrough {
		about := fact{column: shareColumn, year: year, producer: "ann"}
		if _, known := s.of(about); known {
			t.Fatalf("year %d is known before it is said", year)
		}
		s.put(about, saying{"0.5", year})
		s.put(about, saying{"0.6", year + 1})
		for earlier := range year + 1 {
			if line := s.lineOf(fact{column: shareColumn, year: earlier, producer: "ann"}); line != earlier+1 {
				t.Fatalf("of %d facts, that of year %d is of line %d", year+1, earlier, line)
			}
		}
	}
	if _, known := s.of(fact{column: shareColumn, year: 1, producer: "bo"}); known || s.lineOf(fact{column: farmColumn}) != 0 {
		t.Error("a fact is known that nobody told")
	}
}
