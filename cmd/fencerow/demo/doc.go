// Package demo is an invented operation that people can look at before they type their
// own: no farm, county or person in it is real.
package demo
