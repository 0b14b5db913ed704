package file

import (
	"errors"
	"os"
	"syscall"
)

const (
	shareDelete   = 0x4        // others may remove the file, and nothing else
	deleteOnClose = 0x04000000 // the system removes it with the process
	sharedAlready = syscall.Errno(32)
)

// lock opens a file that no other process may open to write, or returns ErrTaken.
func lock(path string) (*os.File, error) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, failed(path, err)
	}
	claim, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, shareDelete, nil, syscall.OPEN_ALWAYS, deleteOnClose, 0)
	if errors.Is(err, sharedAlready) {
		return nil, ErrTaken
	}
	if err != nil {
		return nil, failed(path, err)
	}
	return os.NewFile(uintptr(claim), path), nil
}
