package limits

import (
	"strings"
	"sync"
)

// known are means that were worked out already, by elections: the same elections are asked
// about several times. Its zero value is ready; several goroutines may use it.
type known struct {
	mutex sync.Mutex
	means map[string]RecipientMeans
}

func (k *known) get(elections []Election) (means RecipientMeans, has bool) {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	means, has = k.means[keyOf(elections)]
	return means, has
}

func (k *known) put(elections []Election, means RecipientMeans) {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	if k.means == nil {
		k.means = map[string]RecipientMeans{}
	}
	k.means[keyOf(elections)] = means
}

// keyOf names some elections in their order.
func keyOf(elections []Election) string {
	var key strings.Builder
	for _, e := range elections {
		key.WriteString(e.Farm)
		key.WriteByte(0)
		key.WriteString(string(e.Commodity))
		key.WriteByte(0)
		key.WriteString(string(e.Program))
		key.WriteByte(0)
	}
	return key.String()
}
