package batch

import (
	"fmt"
)

// labels returns the names of clients, operations, farms and persons, or, with a mask,
// numbers in their place that are the same on every run of the same table. One labels
// serves one part; its numbers hold the part, so that no two parts share one.
type labels struct {
	part string         // with its share, "03of16-1"; "": no mask
	seen map[string]int // by kind and name
	next map[string]int // by kind
}

// newLabels returns the labels of a part of a share ("": of all); masked hides the
// names.
func newLabels(share string, part int, masked bool) labels {
	if !masked {
		return labels{}
	}
	return labels{fmt.Sprintf("%s%d", share, part), map[string]int{}, map[string]int{}}
}

func (l labels) of(kind, name string) string {
	if l.part == "" || name == "" {
		return name
	}
	key := kind + "|" + name
	if l.seen[key] == 0 {
		l.next[kind]++
		l.seen[key] = l.next[kind]
	}
	return fmt.Sprintf("%s %s-%d", kind, l.part, l.seen[key])
}

func (l labels) client(name string) string { return l.of("client", name) }

func (l labels) operation(client, name string) string {
	if l.part == "" || name == "" {
		return name
	}
	return l.of("operation", client+"|"+name)
}

func (l labels) farm(key string) string { return l.of("farm", key) }

func (l labels) person(id string) string { return l.of("person", id) }
