// Package help makes man pages and scripts of completion from a tree of commands.
//
// It must not know what a command does. Start reading at Pages and Complete.
package help
