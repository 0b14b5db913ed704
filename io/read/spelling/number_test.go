package spelling

import "testing"

// What has digits alone is read at once; it is the number that the longer way finds, which a
// dollar sign makes it go.
func TestDigitsAreReadAtOnce(t *testing.T) {
	for _, text := range []string{"0", "7", "0417", "120.50", "120.", "0.0000001", "12345678901234567890", "0.000000000000000001", "9007199254740993", "1.7976931348623157"} {
		if !isDigits(text) {
			t.Errorf("%q has digits alone", text)
		}
		for _, habits := range []Habits{{}, {DecimalComma: true}, {Powers: true}} {
			fast, fault := Number(text, habits)
			slow, other := Number("$"+text, habits)
			if fast != slow || fault != nil || other != nil {
				t.Errorf("%q is %v, %v; with a dollar sign %v, %v", text, fast, fault, slow, other)
			}
			part, _ := Share(text+"%", habits)
			if whole, _ := Share("$"+text+"%", habits); part != whole {
				t.Errorf("%q percent is %v and %v", text, part, whole)
			}
		}
	}
	for _, text := range []string{"", ".", ".5", "-1", "+1", "1e3", "1.2.3", "1,204", " 1", "123456789012345678901", "٣"} {
		if isDigits(text) {
			t.Errorf("%q is not read at once", text)
		}
	}
}
