package limits

import "strings"

// keyOf names some elections in their order.
func keyOf(elections []Election) string {
	var key strings.Builder
	for _, e := range elections {
		key.WriteString(e.Farm)
		key.WriteByte(0)
		key.WriteString(string(e.Commodity))
		key.WriteByte(0)
		key.WriteString(string(e.Program))
		key.WriteByte(0)
	}
	return key.String()
}
