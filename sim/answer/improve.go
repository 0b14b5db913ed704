package answer

import (
	"cmp"
	"slices"

	"fencerow/program/crop"
)

// improve turns levers, one at a time and then two at a time, as long as the average
// after limits rises, and returns it. Slopes say what a turn can bring at most, so
// that only those that promise a rise are tried.
func (l *ledger) improve() (mean crop.Money) {
	mean = l.score()
	for {
		before := mean
		if mean = l.turnOne(mean); mean > before {
			continue
		}
		if mean = l.turnTwo(mean); mean == before {
			return mean
		}
	}
}

// promise is the most that turning a lever can bring.
type promise struct {
	lever int
	rise  crop.Money
}

// promises lists the levers, those first that promise most.
func (l *ledger) promises() (all []promise) {
	slope := make([]float64, len(l.levers))
	l.slopes(slope)
	for k, g := range slope {
		all = append(all, promise{k, g * (1 - 2*l.pushed[k])})
	}
	slices.SortStableFunc(all, func(a, b promise) int { return cmp.Compare(b.rise, a.rise) })
	return all
}

// turnOne turns each lever that raises the average.
func (l *ledger) turnOne(mean crop.Money) crop.Money {
	for _, p := range l.promises() {
		if p.rise <= gain {
			break
		}
		l.turn(p.lever)
		if now := l.score(); now > mean+gain {
			mean = now
			continue
		}
		l.turn(p.lever)
	}
	return mean
}

// mostPairs is the number of pairs of levers that are tried before one is turned.
const mostPairs = 400

// turnTwo turns the first two levers that raise the average together, of those that
// promise most.
func (l *ledger) turnTwo(mean crop.Money) crop.Money {
	tried := 0
	all := l.promises()
	for i, first := range all {
		l.turn(first.lever)
		for _, second := range all[i+1:] {
			if first.rise+second.rise <= gain || tried == mostPairs {
				break
			}
			tried++
			l.turn(second.lever)
			if now := l.score(); now > mean+gain {
				return now
			}
			l.turn(second.lever)
		}
		l.turn(first.lever)
		if tried == mostPairs {
			break
		}
	}
	return mean
}

// holdToStart takes back every turn that brings nothing, and returns the average.
func (l *ledger) holdToStart(mean crop.Money) crop.Money {
	least := mean - tie
	for k := range l.levers {
		if l.pushed[k] < 0.5 {
			continue
		}
		l.turn(k)
		if now := l.score(); now >= least {
			mean = now
			continue
		}
		l.turn(k)
	}
	return mean
}

// tie is what two averages that are the same may differ by, USD.
const tie crop.Money = 1e-6
