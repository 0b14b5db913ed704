// Package since says what changed since an earlier answer about the same farms. The JSON of
// an answer holds the inputs that its margins rest on (Keep); Read reads it later, and
// Compared asks it again with one kind of today's inputs at a time. It opens no file. Start
// reading at Last.Compared.
package since
