// Package scores has the rules by which odds are held against what came: the place of an
// outcome among them, the continuous ranked probability score, the Brier score. It knows no
// price and no program. Start reading at CRPS.
package scores
