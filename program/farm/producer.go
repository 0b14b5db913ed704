package farm

import "fencerow/program/crop"

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
