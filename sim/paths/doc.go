// Package paths runs the law over many simulated courses of prices and yields of
// one county, several crop years each, some draws at a time.
//
// It is the fast form for very many draws: memory does not grow with them, and
// every quantity is one simple loop over a tile of draws. The readable form is in
// plain_test.go, which calls package program draw by draw; the two agree in every
// payment. Start reading at Run.
package paths
