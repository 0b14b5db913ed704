package elect

// Payment is what one commodity of a farm is paid under one program: Weight times the rate
// in each scenario, USD.
type Payment struct {
	Rates  []float64 // by scenario, 0 or more: USD per unit under PLC, USD per acre under ARC-CO
	Mean   float64   // of Rates; given, because many farms share them
	Weight float64   // 0 or more: payment yield times payment acres under PLC, payment acres under ARC-CO
}

// Commodity is one commodity of a farm under each program, at the places PLC and ARCCO.
type Commodity [2]Payment

// Places of the programs in a Commodity.
const (
	PLC   = 0
	ARCCO = 1
)

// Figures are the mean and the 5th and 95th percentile over all scenarios of what a whole
// farm is paid under one choice, USD before limits. Percentiles are of type 7 of Hyndman
// and Fan, as in sim/odds.
type Figures struct{ Mean, P5, P95 float64 }

// Workspace is memory used again for one farm after the other. Its zero value is ready.
// It is not safe for concurrent use.
type Workspace struct {
	sums [][]float64 // [commodity][scenario]: total of this commodity and those before it, USD
	low  []float64   // totals below a threshold
	high []float64   // totals above a threshold
}

// EveryChoice fills dst with the figures of every choice, 2^n of them for n commodities,
// and returns the choice with the highest mean, the first of equals. Bit k of a choice is
// set where commodity k is under ARC-CO. All series must have the same length, at least 1;
// dst must hold 2^n.
func (w *Workspace) EveryChoice(dst []Figures, farm []Commodity) (highest int) {
	w.fit(farm)
	w.branch(dst, farm, 0, 0, 0)
	for choice := range 1 << len(farm) {
		if dst[choice].Mean > dst[highest].Mean {
			highest = choice
		}
	}
	return highest
}

// HighestMean returns the choice with the highest mean, the first of equals, and that mean,
// as EveryChoice does, without any percentile. The mean of a choice is the sum of the means
// of its rates, each times its weight, so that no scenario is looked at.
func HighestMean(farm []Commodity) (highest int, mean float64) {
	mean = MeanOf(farm, 0)
	for choice := 1; choice < 1<<len(farm); choice++ {
		if other := MeanOf(farm, choice); other > mean {
			highest, mean = choice, other
		}
	}
	return highest, mean
}

// MeanOf returns the mean of one choice, USD, with bits as in EveryChoice.
func MeanOf(farm []Commodity, choice int) (mean float64) {
	for k := range farm {
		payment := farm[k][choice>>k&1]
		mean += payment.Weight * payment.Mean
	}
	return mean
}

// OneChoice returns the figures of one choice, with bits as in EveryChoice.
func (w *Workspace) OneChoice(farm []Commodity, choice int) (f Figures) {
	w.fit(farm)
	for k := range farm {
		f.Mean += w.sum(farm, k, choice>>k&1)
	}
	f.P5, f.P95 = w.percentiles(w.sums[len(farm)-1])
	return f
}

// branch fills dst with all choices that begin as choice does in the commodities before k;
// they share the sums of those. mean is that of the commodities before k.
func (w *Workspace) branch(dst []Figures, farm []Commodity, k, choice int, mean float64) {
	for program := range farm[k] {
		mean, choice := mean+w.sum(farm, k, program), choice|program<<k
		if k+1 < len(farm) {
			w.branch(dst, farm, k+1, choice, mean)
			continue
		}
		low, high := w.percentiles(w.sums[k])
		dst[choice] = Figures{mean, low, high}
	}
}

// sum fills w.sums[k] and returns the mean of commodity k under a program, USD.
func (w *Workspace) sum(farm []Commodity, k, program int) (mean float64) {
	payment := farm[k][program]
	if k == 0 {
		scaled(w.sums[0], payment.Rates, payment.Weight)
	} else {
		added(w.sums[k], w.sums[k-1], payment.Rates, payment.Weight)
	}
	return payment.Weight * payment.Mean
}

// scaled fills dst with weight times rates.
func scaled(dst, rates []float64, weight float64) {
	rates = rates[:len(dst)]
	for i := range dst {
		dst[i] = weight * rates[i]
	}
}

// added fills dst with before plus weight times rates.
func added(dst, before, rates []float64, weight float64) {
	before, rates = before[:len(dst)], rates[:len(dst)]
	for i := range dst {
		dst[i] = before[i] + weight*rates[i]
	}
}

// fit allocates what a farm needs.
func (w *Workspace) fit(farm []Commodity) {
	scenarios := len(farm[0][PLC].Rates)
	if len(w.low) != scenarios {
		*w = Workspace{low: make([]float64, scenarios), high: make([]float64, scenarios)}
	}
	for len(w.sums) < len(farm) {
		w.sums = append(w.sums, make([]float64, scenarios))
	}
}
