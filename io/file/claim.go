package file

import (
	"errors"
	"os"
)

// ErrTaken means that another process has the claim.
var ErrTaken = errors.New("another run is writing there")

// Claim takes a file for this process alone, until release or the end of the process, however
// it ends. The file says nothing and is removed by release. ErrTaken: another process has it. A
// file system without locks holds nobody back.
func Claim(path string) (release func(), err error) {
	for {
		claim, err := lock(path)
		if err != nil {
			return nil, err
		}
		mine, failed := claim.Stat()
		there, gone := os.Stat(path)
		if failed == nil && gone == nil && os.SameFile(mine, there) {
			return func() {
				os.Remove(path) // on Windows the system removes it
				claim.Close()
			}, nil
		}
		claim.Close() // that of a run which has ended since: take the next
	}
}
