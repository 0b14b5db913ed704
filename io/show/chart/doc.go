// Package chart draws the pictures of a report as SVG in black and white: kinds are
// told apart by pattern, dash and mark, never by color. The same picture gives the
// same bytes. It computes nothing. Start reading at SVG.
package chart
