package site

import (
	_ "embed"

	"fencerow/io/show/page"
)

// pageScript keeps the pages in one document; without it they still work where they are
// served.
//
//go:embed page.js
var pageScript string

// Script returns the script of the pages, which Request knows as ScriptPath.
func Script() string { return pageScript }

// Style returns the style of the pages, as CSS.
func Style() string { return page.Style() + siteStyle }
