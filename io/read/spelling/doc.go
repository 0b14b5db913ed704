// Package spelling is how people write a number, a part of one, yes or no and the few
// words of a farm, whether in a table or in a YAML file: "1,204.5", "50%", "ARC County".
//
// It knows texts and what they stand for. It must not know a file, a line or a column:
// its readers say where a fault stands. Start reading at Number.
package spelling
