// Command release makes all files of a release, named by a version and a day that are given:
//
//	go run ./cmd/release --version 1.0.0 --date 2026-12-01 --out dist
//
// For Linux, macOS and Windows, each on amd64 and arm64, it packs the program with its papers,
// licences, man pages, completion scripts and list of parts. Beside the archives stand the
// pages as one file and SHA256SUMS. Two runs of one commit with one Go give the same bytes:
// no clock and no path of this computer goes in. docs/releasing.md has the round.
package main
