// Package brotli takes the place of github.com/andybalholm/brotli, which the Parquet library
// asks for (go.mod has the replace): its dictionary and code are 0.4 MB of a program, for a
// packing that table tools do not choose by themselves. A column packed so is refused with
// what to do. Start reading at NewReader.
package brotli
