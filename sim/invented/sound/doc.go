// Package sound holds what fuzz targets of several rooms ask of any input: that what is read
// or answered has no figure that is not finite, and that it is done soon. It also makes texts
// of the words of a format, which chance alone does not find. Nothing in the program imports it.
package sound
