// Package limits follows what commodity bases are paid to people: shares,
// attribution, payment limits, sequestration, scenario by scenario; and says what a
// change of some elections moves after all that. With package elect it finds the
// elections that bring all producers together the most.
//
// It knows payments and who stands behind them; it knows no price, no yield and no
// words for people. Start reading at Payments.
package limits
