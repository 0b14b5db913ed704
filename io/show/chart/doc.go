// Package chart draws the pictures of a report as SVG in black and white: kinds are
// distinguished by hatching, dash and width, never by color, and named at their lines and
// bars where there is room, else by a legend. The same picture gives the same bytes, and
// nothing in it has an id that could clash on a page. Texts are measured, so that whatever
// the figures are no two touch and none is cut. It computes nothing but places on paper.
// Start reading at SVG.
package chart
