package odds

import (
	"strings"
	"testing"
)

// Each case says its own figure, never that of another; beyond what is measured it
// says so. The figures themselves are measured in sim/answer, by
// TestBenchmarksAheadByWhatIsKnown.
func TestAheadAccuracyByCase(t *testing.T) {
	seen := map[string]string{}
	for _, one := range []struct {
		stage Stage
		years int
	}{{Final, 1}, {InsuranceYield, 1}, {CountyEstimate, 1}, {BeforeHarvest, 1}, {InsuranceYield, 2}, {CountyEstimate, 2}, {BeforeHarvest, 2}} {
		says := ProjectedBenchmarkAccuracy(one.stage, one.years)
		within, _, ok := ProjectedBenchmarkWithin(one.stage, one.years)
		if other, twice := seen[says]; twice || !ok || within <= 0 || !strings.Contains(says, "95 in 100") {
			t.Errorf("%v: %q, as %s", one, says, other)
		}
		seen[says] = string(one.stage)
	}
	if local, drawn := ProjectedBenchmarkAccuracy(LocalHarvest, 1), ProjectedBenchmarkAccuracy(BeforeHarvest, 1); local != drawn {
		t.Errorf("a yield drawn after harvest says %q, before %q", local, drawn)
	}
	if says := ProjectedBenchmarkAccuracy(BeforeHarvest, 3); !strings.Contains(says, "not measured") {
		t.Errorf("three years ahead: %q", says)
	}
}
