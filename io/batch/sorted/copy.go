package sorted

import (
	"bufio"
	"fmt"
	"io"
	"os"
)

// copiedAtOnce is how many bytes of a file Copy holds.
const copiedAtOnce = 64 << 10

// Copy copies files of lines one after the other, as they stand, with the headings of the
// first alone.
func Copy(w io.Writer, names []string) error {
	in := bufio.NewReaderSize(nil, copiedAtOnce)
	for i, name := range names {
		if err := copyOne(w, in, name, i > 0); err != nil {
			return err
		}
	}
	return nil
}

// copyOne copies a file by way of in.
func copyOne(w io.Writer, in *bufio.Reader, name string, withoutHeads bool) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	in.Reset(struct{ io.Reader }{file}) // a file by itself would be copied through memory of its own
	if withoutHeads {
		if _, err := in.ReadString('\n'); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	_, err = io.Copy(w, in)
	return err
}
