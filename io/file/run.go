package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
)

// Error says why a file cannot be written, and what to do.
type Error struct {
	Path   string // as it was given
	Reason string
	Hint   string
	Err    error // the cause; nil where the name alone is refused
}

func (e *Error) Error() string { return "cannot write " + e.Path + ": " + e.Reason }

func (e *Error) Unwrap() error { return e.Err }

// Refused reports whether the computer refused what another time it may allow: the disk is
// full, writing is not permitted, a device fails. Names that lead nowhere are no such thing.
func (e *Error) Refused() bool {
	return e.Err != nil && !errors.Is(e.Err, fs.ErrNotExist) && !errors.Is(e.Err, syscall.EISDIR) && !errors.Is(e.Err, syscall.ENOTDIR)
}

// Run knows the files of one run: its inputs, and the outputs written so far. Several
// goroutines may write at a time. The zero Run has no inputs.
type Run struct {
	mutex   sync.Mutex
	inputs  []known
	outputs []known
	keeps   bool // what was there before
}

// Keep says whether the run leaves a file that is there as it is, and refuses its name:
// what people have in it they may not have elsewhere. It returns the run.
func (r *Run) Keep(keeps bool) *Run {
	r.keeps = keeps
	return r
}

// known is a file that a run may not write over.
type known struct {
	name string      // as it was given
	path string      // absolute, without links
	info fs.FileInfo // nil while it is written
}

// NewRun returns a run that reads these files and folders. A name that does not exist
// is skipped: reading it gives the error.
func NewRun(inputs ...string) *Run {
	r := &Run{}
	for _, name := range inputs {
		if info, err := os.Stat(name); err == nil {
			r.inputs = append(r.inputs, known{name: name, info: info})
		}
	}
	return r
}

// Check returns the *Error with which Write would refuse one of these names, or that
// two of them are the same file; nil for none. Call it before anything is computed.
func (r *Run) Check(paths ...string) error {
	var seen []known
	for _, path := range paths {
		to, err := look(path)
		if err != nil {
			return err
		}
		if to.inPlace() {
			continue
		}
		if err := r.refuse(to, seen); err != nil {
			return err
		}
		seen = append(seen, known{path, to.path, to.info})
	}
	return nil
}

// Write writes a file whole or not at all; its folder must exist. A refused name and a
// failure of the disk give an *Error; an error of write is returned with the name
// before it. After any error the new file is gone and the old one is as it was.
// Devices, pipes and standard streams are written to directly.
func (r *Run) Write(path string, write func(io.Writer) error) error {
	to, err := look(path)
	if err != nil {
		return err
	}
	if to.inPlace() {
		return to.writeInto(write)
	}
	if err := r.claim(to); err != nil {
		return err
	}
	to.isNew = r.keeps && to.info == nil
	info, err := to.replace(write)
	r.mutex.Lock()
	defer r.mutex.Unlock()
	for i := range r.outputs {
		if r.outputs[i].path == to.path {
			if r.outputs[i].info = info; err != nil {
				r.outputs = append(r.outputs[:i], r.outputs[i+1:]...)
			}
			break
		}
	}
	return err
}

// claim reserves a name for an output that is about to be written.
func (r *Run) claim(to target) error {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if err := r.refuse(to, r.outputs); err != nil {
		return err
	}
	r.outputs = append(r.outputs, known{name: to.given, path: to.path})
	return nil
}

// refuse returns an *Error where a name is the file of an input, an output or a
// standard stream.
func (r *Run) refuse(to target, outputs []known) error {
	for _, input := range r.inputs {
		if to.is(input) {
			return &Error{Path: to.given, Reason: "it is an input of this run (" + input.name + ")", Hint: "name another file: inputs are never written over"}
		}
	}
	for _, output := range outputs {
		if to.is(output) || r.keeps && strings.EqualFold(to.path, output.path) { // one file, where the system makes no difference of case
			return &Error{Path: to.given, Reason: "another output of this run goes there (" + output.name + ")", Hint: "give each output a name of its own"}
		}
	}
	for _, stream := range []*os.File{os.Stdout, os.Stderr} {
		if info, err := stream.Stat(); err == nil && to.is(known{info: info}) {
			return &Error{Path: to.given, Reason: "what the program prints goes there", Hint: "name another file, or send the printed text to another one"}
		}
	}
	if r.keeps && to.info != nil {
		return isThere(to.given)
	}
	return nil
}

// isThere refuses the name of a file that is kept.
func isThere(name string) *Error {
	return &Error{Path: name, Reason: "a file of that name is there", Hint: "add --force to replace it, or name another file"}
}

// target is the file that the name of an output leads to.
type target struct {
	given string
	path  string      // absolute, without links
	info  fs.FileInfo // of the file that is there; nil: none is
	isNew bool        // a file that appears there meanwhile is kept
}

func (t target) is(other known) bool {
	return t.path == other.path || t.info != nil && other.info != nil && os.SameFile(t.info, other.info)
}

// look finds the file of a name: one that exists, or a new one in a folder. A link to a
// file is not followed: whoever laid it would choose what is written over.
func look(path string) (target, error) {
	info, err := os.Stat(path)
	missing := errors.Is(err, fs.ErrNotExist)
	if err != nil && !missing {
		return target{}, failed(path, err)
	}
	if missing {
		if _, err := os.Lstat(path); err == nil {
			return target{}, &Error{Path: path, Reason: "it is a link to a file that is not there", Hint: "name another file, or take the link away"}
		}
		folder, err := filepath.EvalSymlinks(filepath.Dir(path))
		if err == nil {
			folder, err = filepath.Abs(folder)
		}
		if err != nil {
			return target{}, failed(path, err)
		}
		return target{given: path, path: filepath.Join(folder, filepath.Base(path))}, nil
	}
	if info.IsDir() {
		return target{}, &Error{Path: path, Reason: "it is a folder", Hint: "name a file in it"}
	}
	to := target{given: path, path: path, info: info}
	if to.inPlace() {
		return to, nil
	}
	if itself, err := os.Lstat(path); err == nil && itself.Mode()&fs.ModeSymlink != 0 {
		return target{}, &Error{Path: path, Reason: "it is a link to another file", Hint: "name the file itself, or take the link away"}
	}
	if info.Mode().Perm()&0o200 == 0 {
		return target{}, &Error{Path: path, Reason: "the file there is write-protected", Hint: "name another file, or take the protection away"}
	}
	if to.path, err = filepath.EvalSymlinks(path); err == nil {
		to.path, err = filepath.Abs(to.path)
	}
	if err != nil {
		return target{}, failed(path, err)
	}
	return to, nil
}

// failed returns an *Error for an error of the operating system.
func failed(path string, err error) error {
	reason := err.Error()
	var place *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &place):
		reason = fmt.Sprintf("%s %s: %v", place.Op, filepath.Base(place.Path), place.Err)
	case errors.As(err, &link):
		reason = fmt.Sprintf("%s: %v", link.Op, link.Err)
	}
	return &Error{Path: path, Reason: reason, Hint: "name a file in a folder that exists and can be written. Check that the disk has room, and close the file in other programs", Err: err}
}
