package farm

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// ProducerKind is what the law takes a producer to be.
type ProducerKind string

// The kinds.
const (
	Person         ProducerKind = "person"
	JointOperation ProducerKind = "joint_operation"
	PassThrough    ProducerKind = "pass_through"
	Corporation    ProducerKind = "corporation"
)

// Exemption from the ten-acre rule.
type Exemption string

// The exemptions.
const (
	NotExempt             Exemption = "no"
	Beginning             Exemption = "beginning"
	LimitedResource       Exemption = "limited_resource"
	SociallyDisadvantaged Exemption = "socially_disadvantaged"
	Veteran               Exemption = "veteran"
)

// SoleProducer is who holds all shares where a file names no producer.
const SoleProducer = "operator"

// Producer is a person or entity with a share in the crop.
type Producer struct {
	ID              string
	Kind            ProducerKind
	Members         []Member
	LimitUsed       map[crop.CropYear]LimitUsed
	IncomeOverLimit bool
	TenAcreExempt   Exemption
	OtherBaseAcres  crop.Acres
	OtherIncome     crop.Money
	Papers          map[crop.CropYear]map[Paper]Noted // without what is not known
}

// Member is an owner of an entity.
type Member struct {
	ID    string
	Share crop.Share
}

// LimitUsed is the part of a payment limit used outside this file, in USD.
type LimitUsed struct {
	General, Peanuts crop.Money
}

// PassThroughByMember reports whether a pass-through entity is treated as a joint
// operation in crop year y: its payment limit goes by its members.
//
// Source: the row pass_through_limit_per_member: P.L. 119-21, sec. 10306.
func PassThroughByMember(y crop.CropYear) bool {
	_, err := law.Find("pass_through_limit_per_member", "", y)
	return err == nil
}

// CheckMembers refuses an entity without members in a crop year whose payment limit
// goes by its members.
//
// Source: 7 U.S.C. 1308(e)(3)(B)(ii).
func (p Producer) CheckMembers(y crop.CropYear) *Fault {
	byMember := p.Kind == JointOperation || p.Kind == PassThrough && PassThroughByMember(y)
	if !byMember || len(p.Members) > 0 {
		return nil
	}
	return &Fault{
		Reason: fmt.Sprintf("producer %q is a %s without members; the payment limit of %d goes by its members", p.ID, p.Kind, y),
		Hint:   "list who owns it, and their parts: members: [{id: first, share: 0.6}, {id: second, share: 0.4}]. Or write kind: person or corporation, if that is what it is",
	}
}
