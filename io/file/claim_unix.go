//go:build linux || darwin || freebsd || netbsd || openbsd

package file

import (
	"errors"
	"os"
	"syscall"
)

// lock opens a file and locks it, or returns ErrTaken.
func lock(path string) (*os.File, error) {
	claim, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return nil, failed(path, err)
	}
	if err := syscall.Flock(int(claim.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); errors.Is(err, syscall.EWOULDBLOCK) {
		claim.Close()
		return nil, ErrTaken
	}
	return claim, nil
}
