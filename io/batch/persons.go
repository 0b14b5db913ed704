package batch

import (
	"fmt"
	"hash/fnv"
)

// personsSeen collects who is named in several operations of a client. It stores
// hashes alone, some tens of bytes for each person.
type personsSeen struct {
	first  map[uint64]uint64 // person -> the first operation that names the person
	shared sharedPersons
}

// sharedPersons are hashes of the persons named in several operations. Two persons
// have the same hash about once in 10^19.
type sharedPersons map[uint64]bool

func newPersonsSeen() personsSeen { return personsSeen{map[uint64]uint64{}, sharedPersons{}} }

// add adds one row. A person is a name in the column producer under one client.
func (p personsSeen) add(i item) {
	if i.Row.Producer == "" {
		return
	}
	person, operation := hashOf(i.Row.Client, i.Row.Producer), hashOf(i.Row.Client, i.Row.Operation)
	if first, seen := p.first[person]; !seen {
		p.first[person] = operation
	} else if first != operation {
		p.shared[person] = true
	}
}

// has reports whether a person of a client is named in several operations.
func (s sharedPersons) has(client, person string) bool { return s[hashOf(client, person)] }

func hashOf(client, name string) uint64 {
	hash := fnv.New64a()
	fmt.Fprintf(hash, "%s\x00%s", client, name)
	return hash.Sum64()
}
