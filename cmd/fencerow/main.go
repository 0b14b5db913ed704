// Command fencerow sets PLC beside ARC-CO for a farm's base acres: exact law,
// honest odds, flags. See README.md.
package main

import "os"

func main() {
	endOnInterrupt(os.Stderr)
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}
