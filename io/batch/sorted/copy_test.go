package sorted

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The headings of the first file stand once; a file without any is an error that names it.
func TestCopy(t *testing.T) {
	folder := t.TempDir()
	var names []string
	for name, text := range map[string]string{"a": "head\n1\n" + strings.Repeat("x", 2*copiedAtOnce) + "\n", "b": "head\n", "c": "head\n2\n", "d": ""} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range strings.Fields("a b c d") {
		names = append(names, filepath.Join(folder, name))
	}
	var out strings.Builder
	if err := Copy(&out, names[:3]); err != nil || out.String() != "head\n1\n"+strings.Repeat("x", 2*copiedAtOnce)+"\n2\n" {
		t.Errorf("%v, %d bytes", err, out.Len())
	}
	if err := Copy(&out, names); err == nil || !strings.Contains(err.Error(), names[3]) {
		t.Errorf("a file without headings: %v", err)
	}
}
