package program

import (
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Steps from what producers earn to what stays with each recipient.
var (
	StepShare           = Step{"share", "share of a producer in a base", "1", ""}
	StepEarned          = Step{"earned", "earned by a producer: share x payment", "USD", ""}
	StepReaches         = Step{"reaches", "reaches a recipient, itself or through entities", "USD", "7 U.S.C. 1308(e)"}
	StepLimitLeft       = Step{"limit_left", "limit left of a recipient", "USD", ""}
	StepIncomeOverLimit = Step{"limit_left", "limit left of a recipient with too much income", "USD", "7 U.S.C. 1308-3a"}
	StepWithinLimit     = Step{"within_limit", "what the limit leaves", "USD", "7 U.S.C. 1308(b),(c)"}
	StepMembersLimits   = Step{"within_limit", "what a joint operation passes on", "USD", "7 U.S.C. 1308(e)(3)(B)(ii)"}
	StepOwnerShare      = Step{"owner_share", "share of an owner in an entity", "1", "7 U.S.C. 1308(e)"}
	StepOwnShare        = Step{"own_share", "share of owners who are not listed", "1", ""}
	StepOwnLimit        = Step{"own_limit", "limit of owners who are not listed", "USD", "7 U.S.C. 1308(e)(3)(B)(ii)"}
)

// Recipient is a person or entity that payments reach: a producer, or an owner
// of one.
type Recipient struct {
	ID     string
	Limit  crop.Money     // of each of the two limits, USD; of a joint operation that of all its members together
	Used   farm.LimitUsed // already taken elsewhere, USD that count against the limit
	Barred bool           // average income over the limit: paid nothing
	Owners []Ownership
	Rest   crop.Share // of owners who are not listed; 1 for a person

	rooms [limitPools]room
}

// room is what payments counted against one limit may still be, in dollars as
// they arrive.
type room struct {
	arriving crop.Money // what may arrive before anything is kept back
	rest     crop.Money // what may stay with owners who are not listed
}

// Ownership is one owner's part of an entity.
type Ownership struct {
	Recipient int // place among the recipients
	Share     crop.Share
}

// LimitPool tells the two payment limits apart.
type LimitPool int

// Peanuts have a limit of their own.
const (
	GeneralPool LimitPool = iota
	PeanutPool
	limitPools // how many there are
)

// Room returns what may still arrive at a recipient before a limit keeps anything
// back, USD before what LimitRule.Reduced takes: its limit less what is used
// elsewhere, 0 where its average income is over the limit. A joint operation has
// none of its own, as long as its members' limits keep what they are paid together
// under its ceiling.
//
// Source: 7 U.S.C. 1308(b),(c),(e)(3)(B); 7 U.S.C. 1308-3a.
func (r Recipient) Room(pool LimitPool) crop.Money { return r.rooms[pool].arriving }

// BindsAt returns what may arrive at a recipient before any limit of it, or of its
// owners who are not listed, keeps something back, USD as for Room.
func (r Recipient) BindsAt(pool LimitPool) crop.Money {
	if at := r.rooms[pool]; at.rest < at.arriving*r.Rest {
		return at.rest / r.Rest
	}
	return r.Room(pool)
}

// OthersRoom returns what may stay with owners who are not listed, USD as for Room;
// infinite where the recipient's own limit holds for them too.
func (r Recipient) OthersRoom(pool LimitPool) crop.Money { return r.rooms[pool].rest }

// Within returns what a recipient's limit leaves of what arrived, USD. The limit
// is applied to each outcome, never to an average.
func (r Recipient) Within(pool LimitPool, arrived crop.Money) crop.Money {
	return min(arrived, r.Room(pool))
}

// stays is the part of what is within the limit that is not passed on to owners.
func (r *Recipient) stays(pool LimitPool, within crop.Money) crop.Money {
	return min(within*r.Rest, r.rooms[pool].rest)
}

// Attribution follows payments from producers through the entities to the
// persons behind them. Recipients stand in the order of their ids, so that the
// order of the file changes nothing.
type Attribution struct {
	Recipients []Recipient
	Order      []int // places of the recipients, every entity before its owners
}

// LimitRule is how a crop year's payment limit holds for entities.
type LimitRule struct {
	Limit                crop.Money // of a person or legal entity
	PassThroughPerMember bool       // a pass-through entity is treated as a joint operation
	CropYear             crop.CropYear

	// Reduced is the part of every payment that sequestration takes before the limit
	// is applied, 0 where the limit comes first. The smaller of a room R and of k
	// times what is earned is k times the smaller of R/k and what is earned: so
	// payments are followed as earned and every room is divided by k = 1 - Reduced.
	Reduced crop.Share
}

// NewAttribution returns the attribution among producers and the members of
// their entities; members without an entry of their own are persons. Ownership
// must not run in circles.
//
// Source: 7 U.S.C. 1308(e)(2)-(4); 7 CFR 1400.106.
func NewAttribution(producers []farm.Producer, rule LimitRule) Attribution {
	known := map[string]farm.Producer{}
	for _, p := range producers {
		known[p.ID] = p
	}
	for _, p := range producers {
		for _, m := range p.Members {
			if _, has := known[m.ID]; !has {
				known[m.ID] = farm.Producer{ID: m.ID, Kind: farm.Person}
			}
		}
	}
	ids := slices.Sorted(maps.Keys(known))
	a := Attribution{}
	for _, id := range ids {
		p := known[id]
		r := Recipient{ID: id, Limit: rule.limitOf(p, known), Used: p.LimitUsed[rule.CropYear], Barred: p.IncomeOverLimit, Rest: 1}
		for _, m := range p.Members {
			at, _ := slices.BinarySearch(ids, m.ID)
			r.Owners = append(r.Owners, Ownership{at, m.Share})
		}
		slices.SortFunc(r.Owners, func(a, b Ownership) int { return a.Recipient - b.Recipient })
		for _, o := range r.Owners {
			r.Rest = max(0, r.Rest-o.Share)
		}
		if r.Rest < crop.Noise { // binary noise of shares that add to one
			r.Rest = 0
		}
		a.Recipients = append(a.Recipients, r)
	}
	a.Order = a.ownersLast()
	for k := len(a.Order) - 1; k >= 0; k-- { // owners before what they own
		i := a.Order[k]
		a.setRooms(i, rule, rule.perMember(known[a.Recipients[i].ID]))
	}
	return a
}

// setRooms works out the rooms of recipient i, those of its owners being known. A
// recipient with a limit for each member passes on what it earns; only what is
// paid to all owners together is held under its ceiling. Owners who are not listed
// count as one person there: they are at least one.
//
// Source: 7 U.S.C. 1308(e)(3)(B)(i),(ii).
func (a Attribution) setRooms(i int, rule LimitRule, perMember bool) {
	kept := 1 - rule.Reduced
	if kept <= 0 {
		kept = 1 // nothing is paid, whatever the limit
	}
	r := &a.Recipients[i]
	for pool, used := range [limitPools]crop.Money{r.Used.General, r.Used.Peanuts} {
		left := max(0, r.Limit-used) / kept
		switch {
		case r.Barred:
			r.rooms[pool] = room{}
		case !perMember:
			r.rooms[pool] = room{arriving: left, rest: math.Inf(1)}
		default:
			r.rooms[pool] = room{arriving: math.Inf(1), rest: rule.Limit / kept}
			r.rooms[pool].arriving = a.passedOn(i, LimitPool(pool), left)
		}
	}
}

// passedOn is how much recipient i may pass on so that its owners, who are paid
// by nobody else, are paid no more than ceiling together; infinite where their own
// limits see to that.
func (a Attribution) passedOn(i int, pool LimitPool, ceiling crop.Money) crop.Money {
	n := len(a.Recipients)
	own, arrived, ended := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n)
	paid := func(earned crop.Money) (sum crop.Money) {
		own[i] = earned
		a.Trace(pool, own, arrived, ended)
		for _, money := range ended {
			sum += money
		}
		return sum
	}
	if paid(mostEarned) <= ceiling*(1+crop.Noise) {
		return math.Inf(1)
	}
	low, high := 0.0, mostEarned
	for range halvings {
		if middle := (low + high) / 2; paid(middle) <= ceiling {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// mostEarned is more than any operation earns, USD; halvings of it come down to binary
// noise.
const mostEarned crop.Money = 1e12

const halvings = 100

// perMember reports whether a producer has no limit of its own, but a ceiling of
// one for each of its members.
func (rule LimitRule) perMember(p farm.Producer) bool {
	return p.Kind == farm.JointOperation || p.Kind == farm.PassThrough && rule.PassThroughPerMember
}

// limitOf returns the limit of a producer: one, or one for each person or
// entity that comprises a joint operation, those of nested joint operations
// counted in their place, and owners who are not listed as one.
//
// Source: 7 U.S.C. 1308(e)(3)(B)(ii); 7 CFR 1400.106(b).
func (rule LimitRule) limitOf(p farm.Producer, known map[string]farm.Producer) crop.Money {
	if !rule.perMember(p) {
		return rule.Limit
	}
	comprise := map[string]bool{}
	var count func(p farm.Producer)
	count = func(p farm.Producer) {
		rest := 1.0
		for _, m := range p.Members {
			rest -= m.Share
			if member := known[m.ID]; rule.perMember(member) {
				count(member)
			} else {
				comprise[m.ID] = true
			}
		}
		if rest > crop.Noise {
			comprise["others of "+p.ID] = true
		}
	}
	count(p)
	return rule.Limit * float64(len(comprise))
}

// ownersLast orders the recipients so that each comes after the entities it
// owns a part of; among those free to come next, the first by id.
func (a Attribution) ownersLast() []int {
	waiting := make([]int, len(a.Recipients)) // entities owned that have not come yet
	for _, r := range a.Recipients {
		for _, o := range r.Owners {
			waiting[o.Recipient]++
		}
	}
	var order []int
	for len(order) < len(waiting) {
		next := slices.IndexFunc(waiting, func(n int) bool { return n == 0 })
		if next < 0 {
			panic("program: ownership runs in a circle") // refused where files are read
		}
		waiting[next], order = -1, append(order, next)
		for _, o := range a.Recipients[next].Owners {
			waiting[o.Recipient]--
		}
	}
	return order
}

// Find returns the place of a recipient among Recipients, -1 where there is none.
func (a Attribution) Find(id string) int {
	at, found := slices.BinarySearchFunc(a.Recipients, id, func(r Recipient, id string) int {
		switch {
		case r.ID < id:
			return -1
		case r.ID > id:
			return 1
		}
		return 0
	})
	if !found {
		return -1
	}
	return at
}

// Trace follows one crop year's payments from one pool. earned[i] is what
// recipient i earned itself as a producer, USD after its share. It fills
// arrived[i] with what reaches recipient i before its own limit (earned and
// through entities) and ended[i] with what stays with it after all limits; an
// entity passes on what its limit leaves to its owners, by share, and keeps the
// part of owners who are not listed. What an owner may not be paid is not paid
// to anybody. The three slices have the length of Recipients and hold dollars
// before sequestration, in either order of reductions (LimitRule.Reduced).
//
// Source: 7 U.S.C. 1308(e)(2),(3); 7 U.S.C. 1308-3a.
func (a Attribution) Trace(pool LimitPool, earned, arrived, ended []crop.Money) {
	copy(arrived, earned)
	for _, i := range a.Order {
		r := &a.Recipients[i]
		within := r.Within(pool, arrived[i])
		for _, o := range r.Owners {
			arrived[o.Recipient] += o.Share * within
		}
		ended[i] = r.stays(pool, within)
	}
}

// Worth fills worth[i] with what one more dollar that arrives at recipient i
// brings to all recipients together, where arrived is what Trace found: nothing
// where the limit is filled, else the part it keeps and what its owners' parts
// bring. At a limit that is just filled it is what the next dollar brings.
func (a Attribution) Worth(pool LimitPool, arrived []crop.Money, worth []crop.Share) {
	for k := len(a.Order) - 1; k >= 0; k-- { // owners before what they own
		i := a.Order[k]
		r := &a.Recipients[i]
		worth[i] = 0
		if arrived[i] >= r.Room(pool) {
			continue
		}
		if arrived[i]*r.Rest < r.rooms[pool].rest {
			worth[i] = r.Rest
		}
		for _, o := range r.Owners {
			worth[i] += o.Share * worth[o.Recipient]
		}
	}
}

// WithoutLimit is the attribution where no payment limit holds back anything;
// who is barred for income stays so.
func (a Attribution) WithoutLimit() Attribution {
	open := Attribution{Order: a.Order, Recipients: slices.Clone(a.Recipients)}
	for i := range open.Recipients {
		r := &open.Recipients[i]
		if r.Limit = math.Inf(1); r.Barred {
			continue
		}
		for pool := range r.rooms {
			r.rooms[pool] = room{math.Inf(1), math.Inf(1)}
		}
	}
	return open
}

// Behind returns the parts of one in which each recipient stands behind
// recipient i: itself 1 for a person; for an entity its owners' shares, through
// all levels, and its own unlisted part.
func (a Attribution) Behind(i int) []crop.Share {
	part, arrived := make([]crop.Share, len(a.Recipients)), make([]crop.Share, len(a.Recipients))
	arrived[i] = 1
	for _, k := range a.Order {
		for _, o := range a.Recipients[k].Owners {
			arrived[o.Recipient] += o.Share * arrived[k]
		}
		part[k] = arrived[k] * a.Recipients[k].Rest
	}
	return part
}

// LimitReached reports whether what arrived at recipient i fills its limit, or
// that of its owners who are not listed.
func (a Attribution) LimitReached(pool LimitPool, i int, arrived crop.Money) bool {
	r := &a.Recipients[i]
	return !r.Barred && arrived > 0 && arrived >= r.BindsAt(pool)
}

// Over returns what arrived at recipient i beyond its limit, and stays with nobody
// of its owners who are not listed, USD; 0 for one who is barred.
func (a Attribution) Over(pool LimitPool, i int, arrived crop.Money) crop.Money {
	r := &a.Recipients[i]
	if r.Barred {
		return 0
	}
	within := r.Within(pool, arrived)
	return max(0, arrived-within) + max(0, within*r.Rest-r.stays(pool, within))
}

// Owns reports whether owner has a part of recipient id, through any number of
// levels.
func (a Attribution) Owns(owner, id string) bool {
	for _, o := range a.Recipients[a.Find(id)].Owners {
		if name := a.Recipients[o.Recipient].ID; name == owner || a.Owns(owner, name) {
			return true
		}
	}
	return false
}
