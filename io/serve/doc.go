// Package serve answers the pages of package site over HTTP for one person at one
// computer.
//
// It knows who may ask: requests to its own address, from its own pages, of a limited size
// and number. It keeps nothing of what is sent, and no path of a request reaches the disk.
//
// Start reading at Handler.
package serve
