package odds

import (
	"fmt"
)

// Constants are the numbers of the model that were estimated from past crop years. Nil
// stands for the rows of parameters.csv. Others have some rows replaced, as where a past
// crop year is asked about with what the other years say (sim/backtest).
type Constants struct {
	replaced map[rowKey]float64
}

// Usual are the rows of parameters.csv as they stand.
var Usual *Constants

// Replace puts another value in place of a row of parameters.csv, or of a row that is not
// there. Not while others read.
func (k *Constants) Replace(param, commodity, region, key string, value float64) {
	if k.replaced == nil {
		k.replaced = map[rowKey]float64{}
	}
	k.replaced[rowKey{param, commodity, region, key}] = value
}

// find returns a row of parameters.csv with its value replaced where it is; ok is false
// where there is neither.
func (k *Constants) find(param, commodity, region, key string) (parameter, bool) {
	p, ok := find(param, commodity, region, key)
	if k == nil {
		return p, ok
	}
	if value, has := k.replaced[rowKey{param, commodity, region, key}]; has {
		p.Value, ok = value, true
	}
	return p, ok
}

// must is find for a number that the model cannot do without.
func (k *Constants) must(param, commodity, region, key string) float64 {
	p, ok := k.find(param, commodity, region, key)
	if !ok {
		panic(fmt.Sprintf("sim/odds/parameters.csv: no row %s, %s, %s, %s", param, commodity, region, key))
	}
	return p.Value
}
