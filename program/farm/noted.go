package farm

// Noted is whether something was done, as somebody typed it.
type Noted string

// The answers. Unknown is also what an absent answer means: nobody recorded it here, which
// does not say that it was not done.
const (
	Unknown Noted = ""
	Yes     Noted = "yes"
	No      Noted = "no"
)

// Signature is whether a producer signed the election of a farm for a crop year.
type Signature struct {
	Signed Noted
	On     string // the day, YYYY-MM-DD; "" where none was typed
}

// Paper is one of the papers that a county office asks of a producer.
type Paper string

// MembersPaper is the only one that is asked of entities alone.
const MembersPaper Paper = "members"

// Papers returns all of them, in the order in which they are listed.
func Papers() []Paper {
	return []Paper{"customer_data", "operating_plan", MembersPaper, "income", "conservation", "power_of_attorney", "bank"}
}

// paperNames are the papers in words.
var paperNames = map[Paper]string{
	"customer_data": "customer data form", "operating_plan": "farm operating plan", "members": "members of an entity", "income": "income certification",
	"conservation": "conservation compliance", "power_of_attorney": "power of attorney", "bank": "bank details",
}

// Name returns the paper in words.
func (p Paper) Name() string { return paperNames[p] }
