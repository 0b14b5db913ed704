// Package compare answers the main question: PLC beside ARC-CO, and ARC-IC where it
// can matter, for every commodity base of an operation, crop year by crop year;
// which one leads and how surely, and which elections bring the most after limits.
//
// It puts together what the rooms below know: figures (position), scenarios,
// payoffs, limits, flags. Leaders and verdicts are decided here and nowhere else.
// It reads no file and prints nothing. Start reading at Answer.
package compare
