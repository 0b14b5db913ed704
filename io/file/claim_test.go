package file

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// One process at a time has a claim; a second is told, also a claim of the same process. It
// ends with release and with a killed process, and leaves no file after release.
func TestOneHasTheClaim(t *testing.T) {
	const variable = "FENCEROW_TEST_CLAIM"
	if path := os.Getenv(variable); path != "" {
		_, err := Claim(path)
		fmt.Println("claimed", err)
		select {}
	}
	path := filepath.Join(t.TempDir(), ".running")
	child := exec.Command(os.Args[0], "-test.run", "^TestOneHasTheClaim$")
	child.Env = append(os.Environ(), variable+"="+path)
	said, err := child.StdoutPipe()
	if err == nil {
		err = child.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	line := make([]byte, 32)
	if n, err := said.Read(line); err != nil || string(line[:n]) != "claimed <nil>\n" {
		t.Fatalf("%q, %v", line[:n], err)
	}
	if _, err := Claim(path); !errors.Is(err, ErrTaken) {
		t.Errorf("beside another process: %v, want ErrTaken", err)
	}
	child.Process.Kill()
	child.Wait()
	for range 2 { // after a kill, and after release
		release, err := Claim(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Claim(path); !errors.Is(err, ErrTaken) {
			t.Errorf("beside an own claim: %v, want ErrTaken", err)
		}
		release()
	}
	if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the claim is left behind: %v", err)
	}
	var e *Error
	if _, err := Claim(filepath.Join(path, "no", "folder")); !errors.As(err, &e) {
		t.Errorf("no folder: %v, want an Error", err)
	}
}
