package backtest

// MovingPrice returns the setup with a band that moves the log price by other than its
// usual error: move is given its standard deviation.
func (s Setup) MovingPrice(move func(sd float64) float64) Setup {
	s.bandPrice = move
	return s
}
