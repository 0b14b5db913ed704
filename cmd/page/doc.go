// Command page writes the pages of fencerow as one HTML file that carries the whole
// program and sends nothing anywhere:
//
//	go run ./cmd/page --out fencerow.html
//
// Built for js/wasm it is the program inside that file.
package main
