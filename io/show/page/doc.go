// Package page prints a report as one HTML file: no script, no color, pictures
// inside, for letter paper, a phone and a screen reader. It decides nothing and
// formats no number. Start reading at Write.
package page
