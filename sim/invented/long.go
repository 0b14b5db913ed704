package invented

import (
	"os"
)

// LongRun is set by FENCEROW_LONG, as in .ci/run: tests then check everything. Without
// it those over whole agency files and very many operations take fewer of the same
// cases.
var LongRun = os.Getenv("FENCEROW_LONG") != ""
