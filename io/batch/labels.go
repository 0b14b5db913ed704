package batch

import "fmt"

// labels stand for names of clients, operations, farms and persons. Without a mask
// they are the names themselves; with one, numbers that tell nothing and are the same
// on every run of the same table. One labels serves one part.
type labels struct {
	part int            // 0: no mask
	seen map[string]int // by kind and name
	next map[string]int // by kind
}

// newLabels are those of a part; masked hides the names.
func newLabels(part int, masked bool) labels {
	if !masked {
		return labels{}
	}
	return labels{part, map[string]int{}, map[string]int{}}
}

func (l labels) of(kind, name string) string {
	if l.part == 0 || name == "" {
		return name
	}
	key := kind + "|" + name
	if l.seen[key] == 0 {
		l.next[kind]++
		l.seen[key] = l.next[kind]
	}
	return fmt.Sprintf("%s %d-%d", kind, l.part, l.seen[key])
}

func (l labels) client(name string) string { return l.of("client", name) }
func (l labels) operation(client, name string) string {
	if l.part == 0 || name == "" {
		return name
	}
	return l.of("operation", client+"|"+name)
}
func (l labels) farm(key string) string  { return l.of("farm", key) }
func (l labels) person(id string) string { return l.of("person", id) }
