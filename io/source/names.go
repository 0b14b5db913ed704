package source

import (
	"path/filepath"
	"strings"
)

// IsCountyFile reports whether a county is named by a file, and not by its code.
func IsCountyFile(name string) bool {
	return strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml")
}

// beside returns where a file lies that is named in another one: beside it, unless the
// name says where.
func beside(file, name string) string { return join(filepath.Dir(file), name) }

func join(folder, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.ToSlash(filepath.Join(folder, name))
}
