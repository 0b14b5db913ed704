// Package moved says what moved a line between two answers: which kind of input alone gives
// it its new lead, and which figures of the inputs changed. It asks no question itself and
// knows neither files nor people. Start reading at Told.
package moved
