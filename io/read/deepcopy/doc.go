// Package deepcopy takes the place of github.com/tiendc/go-deepcopy, of which excelize
// calls Copy alone (go.mod has the replace). That one looks up methods by number when the
// program runs, for which the linker keeps every method of every type: 10 MB here.
//
// It knows values of any type and calls none of their methods. Start reading at Copy.
package deepcopy
