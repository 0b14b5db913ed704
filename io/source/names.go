package source

import (
	"path/filepath"
	"strings"
)

// IsCountyFile reports whether name is a county file, and not the code of a county.
func IsCountyFile(name string) bool {
	return strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml")
}

// beside returns the place of a file that another file names: relative to that file,
// unless it is absolute.
func beside(file, name string) string { return join(filepath.Dir(file), name) }

func join(folder, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.ToSlash(filepath.Join(folder, name))
}
