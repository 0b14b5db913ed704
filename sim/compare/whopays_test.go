package compare

import (
	"testing"

	"fencerow/program"
)

// Payments are held against each other to the cent: what rounding brings together is equal,
// what it parts is not, near and far.
func TestWhoPaysToTheCent(t *testing.T) {
	for _, c := range []struct {
		plc, arc float64
		want     int
	}{
		{0, 0, neitherPays}, {0.004, 0.001, neitherPays}, {0, 0.005, arcPaysMore}, {10.001, 10.004, paysEqual}, {10.004, 10.006, arcPaysMore}, {10.016, 10.001, plcPaysMore},
		{10, 10.03, arcPaysMore}, {10.03, 10, plcPaysMore}, {0, 40, arcPaysMore}, {40, 0, plcPaysMore}, {10.004, 9.9951, paysEqual},
	} {
		count := countPays([]float64{c.plc / 2, 0}, 2, []float64{c.arc / 4, 0}, 4)
		count[neitherPays]--
		if count[c.want] != 1 || c.want != whoPays(program.Cent(c.plc), program.Cent(c.arc)) {
			t.Errorf("PLC %v, ARC-CO %v: %v, want %d", c.plc, c.arc, count, c.want)
		}
	}
}
