// Package record reads the text of a farm record that FSA prints (FSA-156EZ), as it is
// copied out of the print, and makes farms of it. It is experimental: no real print was
// at hand, and the layouts are those that docs/formats.md describes.
//
// It knows the two layouts, what copying does to them, and what must add up on one
// print. It must not know a price or a payment, and guesses nothing: what it does not
// understand is kept with its page and line, what it cannot decide is asked. Names of
// people and contract numbers are read as Private and never shown by default.
//
// Start reading at Parse, then Operation.
package record
