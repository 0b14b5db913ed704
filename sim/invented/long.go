package invented

import (
	"os"
)

// LongRun is set where everything is to be checked: .ci/run sets FENCEROW_LONG. Without
// it tests over whole agency files and very many operations take fewer of the same cases.
var LongRun = os.Getenv("FENCEROW_LONG") != ""
