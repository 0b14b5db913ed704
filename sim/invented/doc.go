// Package invented holds farms, counties and prices that tests of several rooms
// share. Nothing in the program imports it.
package invented
