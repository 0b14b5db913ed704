package elect

// Payment is what one commodity of a farm is paid under one program: in each draw
// Weight times the rate of that draw.
type Payment struct {
	Rates  []float64 // USD per unit, by draw, none below 0
	Mean   float64   // of Rates: worked out once for all farms that share them
	Weight float64   // units: payment yield times payment acres under PLC, payment acres under ARC-CO; not below 0
}

// Commodity is one commodity of a farm under PLC and under ARC-CO.
type Commodity [2]Payment

// The places of the programs in a Commodity.
const (
	PLC   = 0
	ARCCO = 1
)

// Figures describe the payment of a whole farm under one choice, USD: its mean
// over the draws and two percentiles, type 7 of Hyndman and Fan as in sim/odds.
type Figures struct{ Mean, P5, P95 float64 }

// Workspace is the memory in which farms are worked out, one after the other; farms of
// any numbers may follow each other. One goroutine uses it at a time.
type Workspace struct {
	sums [][]float64 // by commodity: totals of it and those before it
	low  []float64   // totals below a threshold
	high []float64   // totals above a threshold
}

// EveryChoice fills dst with the figures of every choice, 2^k of them for k commodities, and
// returns the one with the highest mean, of equal ones the first. Bit k of a choice:
// commodity k under ARC-CO. All series have the same length, at least 1.
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

// OneChoice returns the figures of one choice.
func (w *Workspace) OneChoice(farm []Commodity, choice int) (f Figures) {
	w.fit(farm)
	for k := range farm {
		f.Mean += w.sum(farm, k, choice>>k&1)
	}
	f.P5, f.P95 = w.percentiles(w.sums[len(farm)-1])
	return f
}

// branch adds commodity k under either program to the totals of the commodities
// before it: choices that begin alike share their sums.
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

// sum makes the totals up to commodity k from those before it and returns what the
// commodity adds to the mean.
func (w *Workspace) sum(farm []Commodity, k, program int) (mean float64) {
	part := farm[k][program]
	if k == 0 {
		scaled(w.sums[0], part.Rates, part.Weight)
	} else {
		added(w.sums[k], w.sums[k-1], part.Rates, part.Weight)
	}
	return part.Weight * part.Mean
}

// scaled sets dst to weight times rates.
func scaled(dst, rates []float64, weight float64) {
	rates = rates[:len(dst)]
	for i := range dst {
		dst[i] = weight * rates[i]
	}
}

// added sets dst to the totals before and weight times rates.
func added(dst, before, rates []float64, weight float64) {
	before, rates = before[:len(dst)], rates[:len(dst)]
	for i := range dst {
		dst[i] = before[i] + weight*rates[i]
	}
}

// fit makes the memory as large as a farm needs.
func (w *Workspace) fit(farm []Commodity) {
	draws := len(farm[0][PLC].Rates)
	if len(w.low) != draws {
		*w = Workspace{low: make([]float64, draws), high: make([]float64, draws)}
	}
	for len(w.sums) < len(farm) {
		w.sums = append(w.sums, make([]float64, draws))
	}
}
