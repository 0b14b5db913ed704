package program

import (
	"cmp"
	"container/heap"
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Steps from what producers earn to what stays with each recipient.
var (
	StepShare           = Step{"share", "share of a producer in a base", "1", ""}
	StepEarned          = Step{"earned", "earned by a producer, share x payment", "USD", ""}
	StepReaches         = Step{"reaches", "reaches a recipient, itself or through entities", "USD", "7 U.S.C. 1308(e)"}
	StepLimitLeft       = Step{"limit_left", "limit left of a recipient", "USD", ""}
	StepIncomeOverLimit = Step{"limit_left", "limit left of a recipient with too much income", "USD", "7 U.S.C. 1308-3a"}
	StepWithinLimit     = Step{"within_limit", "what the limit leaves", "USD", "7 U.S.C. 1308(b),(c)"}
	StepMembersLimits   = Step{"within_limit", "what a joint operation passes on", "USD", "7 U.S.C. 1308(e)(3)(B)(ii)"}
	StepOwnerShare      = Step{"owner_share", "share of an owner in an entity", "1", "7 U.S.C. 1308(e)"}
	StepOwnShare        = Step{"own_share", "share of owners who are not listed", "1", ""}
	StepOwnLimit        = Step{"own_limit", "limit of owners who are not listed", "USD", "7 U.S.C. 1308(e)(3)(B)(ii)"}
)

// Recipient is a person or entity that payments reach: a producer, or an owner of one.
type Recipient struct {
	ID     string
	Limit  crop.Money     // of each limit pool, USD; of a joint operation that of all its members together
	Used   farm.LimitUsed // paid elsewhere, USD that count against the limit
	Barred bool           // average income over the limit of income: paid nothing
	Owners []Ownership
	Rest   crop.Share // owned by nobody who is listed; 1 for a person

	rooms [limitPools]room
}

// unlimited is more money than any limit.
var unlimited = math.Inf(1)

// room is what is left of one limit, USD before sequestration (LimitRule.Reduced).
type room struct {
	arriving crop.Money // most that may arrive before anything is cut
	rest     crop.Money // most that may stay with owners who are not listed
}

// Ownership is one owner's share of an entity.
type Ownership struct {
	Recipient int // place among the recipients
	Share     crop.Share
}

// LimitPool is one of the two payment limits that payments count against.
type LimitPool int

const (
	GeneralPool LimitPool = iota // all covered commodities but peanuts
	PeanutPool                   // peanuts, which have a limit of their own
	limitPools                   // how many there are
)

// Room returns what may arrive at a recipient before its limit cuts anything, USD before
// sequestration: its limit less what is used elsewhere, scaled by LimitRule.Reduced; 0 for
// one barred for income. It is infinite for a joint operation, unless its members' own
// limits would let more through than its ceiling.
//
// Source: 7 U.S.C. 1308(b),(c),(e)(3)(B); 7 U.S.C. 1308-3a.
func (r Recipient) Room(pool LimitPool) crop.Money { return r.rooms[pool].arriving }

// BindsAt returns what may arrive at a recipient before its limit, or that of its owners
// who are not listed, cuts anything, USD as for Room.
func (r Recipient) BindsAt(pool LimitPool) crop.Money {
	if at := r.rooms[pool]; at.rest < at.arriving*r.Rest {
		return at.rest / r.Rest
	}
	return r.Room(pool)
}

// OthersRoom returns the most that may stay with owners who are not listed, USD as for
// Room; infinite where the recipient's own limit covers them.
func (r Recipient) OthersRoom(pool LimitPool) crop.Money { return r.rooms[pool].rest }

// Within returns what a recipient's limit leaves of what arrived, USD as for Room. Apply it
// to each scenario, never to an average.
func (r Recipient) Within(pool LimitPool, arrived crop.Money) crop.Money {
	return min(arrived, r.Room(pool))
}

// stays returns what is not passed on to listed owners, of what is within the limit.
func (r *Recipient) stays(pool LimitPool, within crop.Money) crop.Money {
	return min(within*r.Rest, r.rooms[pool].rest)
}

// Attribution follows payments from producers through entities to the persons who own
// them.
type Attribution struct {
	Recipients []Recipient // by id, so that the order of the file changes nothing
	Order      []int       // places of the recipients, every entity before its owners

	rank []int // place in Order, by recipient
}

// LimitRule is how a crop year's payment limit holds for entities.
type LimitRule struct {
	Limit                crop.Money // of a person or legal entity
	PassThroughPerMember bool       // a pass-through entity is treated as a joint operation
	CropYear             crop.CropYear

	// Reduced is the share of every payment that sequestration takes before the limit
	// is applied, 0 where the limit comes first. With k = 1 - Reduced,
	// min(limit, k x earned) = k x min(limit/k, earned): so payments are followed
	// before sequestration, against limits divided by k.
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
		if r.Rest < crop.Noise { // floating-point error of shares that sum to 1
			r.Rest = 0
		}
		a.Recipients = append(a.Recipients, r)
	}
	a.Order, a.rank = a.ownersLast(), make([]int, len(a.Recipients))
	for at, i := range a.Order {
		a.rank[i] = at
	}
	for k := len(a.Order) - 1; k >= 0; k-- { // owners before what they own
		i := a.Order[k]
		a.setRooms(i, rule, rule.perMember(known[a.Recipients[i].ID]))
	}
	return a
}

// setRooms sets the rooms of recipient i; those of its owners must be set. A recipient
// with a limit for each member (perMember) passes on what it earns, as long as all owners
// together are paid no more than its ceiling. Owners who are not listed count as one
// person there: they are at least one.
//
// Source: 7 U.S.C. 1308(e)(3)(B)(i),(ii).
func (a Attribution) setRooms(i int, rule LimitRule, perMember bool) {
	unreduced := 1 - rule.Reduced
	if unreduced <= 0 {
		unreduced = 1 // nothing is paid, whatever the limit
	}
	r := &a.Recipients[i]
	for pool, used := range [limitPools]crop.Money{r.Used.General, r.Used.Peanuts} {
		left := max(0, r.Limit-used) / unreduced
		switch {
		case r.Barred:
			r.rooms[pool] = room{}
		case !perMember:
			r.rooms[pool] = room{arriving: left, rest: unlimited}
		default:
			r.rooms[pool] = room{arriving: unlimited, rest: rule.Limit / unreduced}
			r.rooms[pool].arriving = a.passedOn(i, LimitPool(pool), left)
		}
	}
}

// passedOn returns, by bisection, the most that recipient i may pass on such that its
// owners, if paid by nobody else, are paid no more than ceiling together, USD; infinite
// where their own limits ensure that.
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
		return unlimited
	}
	var low crop.Money
	high := mostEarned
	for range halvings {
		if middle := (low + high) / 2; paid(middle) <= ceiling {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// mostEarned is more than any operation earns, USD: where bisection begins.
const mostEarned crop.Money = 1e12

// halvings is enough for bisection to reach floating-point precision.
const halvings = 100

// perMember reports whether a producer is limited by its members' limits, with a ceiling of
// one limit for each of them.
func (rule LimitRule) perMember(p farm.Producer) bool {
	return p.Kind == farm.JointOperation || p.Kind == farm.PassThrough && rule.PassThroughPerMember
}

// limitOf returns the limit of a producer, USD: one limit, or for a joint operation one for
// each person or entity it is made of. A nested joint operation counts as its members;
// owners who are not listed count as one.
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

// ownersLast returns the places of the recipients in topological order: every entity before
// its owners, ties by id.
func (a Attribution) ownersLast() []int {
	waiting := make([]int, len(a.Recipients)) // entities owned that have not come yet
	for _, r := range a.Recipients {
		for _, o := range r.Owners {
			waiting[o.Recipient]++
		}
	}
	var ready lowestFirst
	for i, n := range waiting {
		if n == 0 {
			ready = append(ready, i) // rising, so that it is a heap
		}
	}
	var order []int
	for len(ready) > 0 {
		next := heap.Pop(&ready).(int)
		order = append(order, next)
		for _, o := range a.Recipients[next].Owners {
			if waiting[o.Recipient]--; waiting[o.Recipient] == 0 {
				heap.Push(&ready, o.Recipient)
			}
		}
	}
	if len(order) < len(waiting) {
		panic("program: ownership runs in a circle") // refused where files are read
	}
	return order
}

// Find returns the place of a recipient (id) among Recipients, -1 where there is none.
func (a Attribution) Find(id string) int {
	at, found := slices.BinarySearchFunc(a.Recipients, id, func(r Recipient, id string) int { return cmp.Compare(r.ID, id) })
	if !found {
		return -1
	}
	return at
}

// Trace follows the payments of one crop year and limit pool. earned[i] is what recipient
// i earned itself as a producer, after share. Trace fills arrived[i] with that plus what
// reaches it through entities, before its own limit, and ended[i] with what stays with it
// after all limits. An entity passes on what its limit leaves to its owners by share, and
// keeps the part of owners who are not listed. What a limit cuts is paid to nobody. All
// three have the length of Recipients, in USD before sequestration whatever the order of
// reductions (LimitRule.Reduced).
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

// Worth fills worth[i] with the marginal worth of what arrives at recipient i: the share
// of one more dollar that ends with any recipient, before sequestration. arrived is what
// Trace found. It is 0 where the limit is filled, also where it is filled exactly.
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

// WithoutLimit returns the same attribution without payment limits; recipients barred for
// income stay so.
func (a Attribution) WithoutLimit() Attribution {
	open := Attribution{Order: a.Order, rank: a.rank, Recipients: slices.Clone(a.Recipients)}
	for i := range open.Recipients {
		r := &open.Recipients[i]
		if r.Limit = unlimited; r.Barred {
			continue
		}
		for pool := range r.rooms {
			r.rooms[pool] = room{unlimited, unlimited}
		}
	}
	return open
}

// Over returns what limits cut of what arrived at recipient i, its own limit and that of
// its owners who are not listed, USD as for Trace; 0 for one barred for income.
func (a Attribution) Over(pool LimitPool, i int, arrived crop.Money) crop.Money {
	r := &a.Recipients[i]
	if r.Barred {
		return 0
	}
	within := r.Within(pool, arrived)
	return max(0, arrived-within) + max(0, within*r.Rest-r.stays(pool, within))
}
