package operation

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// nearPart is the part of an id that may be mistyped, one letter in three: who is near to
// a known producer is taken for a slip, since two people would have two payment limits.
const nearPart = 3

var fourDigits = regexp.MustCompile(`^[0-9]{4}$`)

// declareByUse declares producers that only shares name, as persons of whom nothing else
// is known, in the order of the file.
func (r *reader) declareByUse(farms document.Node) {
	for _, f := range farms.Items {
		r.declareIn(f.Get("shares"))
		for _, b := range f.Get("bases").Items {
			r.declareIn(b.Get("shares"))
		}
	}
}

// declareIn declares the producers of a set of shares, or of a set for each crop year.
func (r *reader) declareIn(shares document.Node) {
	for _, pair := range shares.Pairs {
		id := pair.Key().Text
		switch {
		case pair.Value.Kind == document.Map:
			r.declareIn(pair.Value)
		case pair.Value.Kind != document.Scalar || r.producers[id] || !mayBeProducer(id) || r.nearProducer(id) != "":
		default:
			if !r.named { // the one who stands for a file that names nobody
				r.named, r.producers, r.operation.Producers = true, map[string]bool{}, nil
			}
			r.producers[id] = true
			r.operation.Producers = append(r.operation.Producers, farm.Producer{ID: id, Kind: farm.Person, TenAcreExempt: farm.NotExempt})
		}
	}
}

// mayBeProducer reports whether a key can be a person and not a crop year or a crop: those
// are more likely shares in another order.
func mayBeProducer(id string) bool {
	_, commodity := crop.ParseCommodity(id)
	return id != "" && !commodity && !fourDigits.MatchString(id)
}

// nearProducer returns the known producer or member that an unknown id may be a slip
// for; "" where there is none.
func (r *reader) nearProducer(id string) string {
	known := map[string]bool{}
	if r.named {
		maps.Copy(known, r.producers)
	}
	for _, p := range r.operation.Producers {
		for _, m := range p.Members {
			known[m.ID] = true
		}
	}
	if known[id] {
		return ""
	}
	return document.Nearest(id, slices.Sorted(maps.Keys(known)), nearPart)
}

// refuseProducer refuses a name in shares that is no producer of the file.
func (r *reader) refuseProducer(key document.Node, what string) {
	hint := "the producers of this file are " + strings.Join(slices.Sorted(maps.Keys(r.producers)), ", ") + "; list others under producers"
	if near := r.nearProducer(key.Text); near != "" {
		hint = fmt.Sprintf("did you mean %s? %s", near, hint)
	}
	r.Refuse(key, fmt.Sprintf("%s name the unknown producer %q", what, key.Text), hint)
}
