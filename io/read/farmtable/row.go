package farmtable

import (
	"strconv"

	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Row is one row of a table: the base of one commodity on a farm or tract, with
// one producer. What a pointer does not point to is not given.
type Row struct {
	Line              int // of the file; in a parquet file the row, from 1
	Client, Operation string
	CropYear          crop.CropYear // 0: not given
	Farm              string        // as typed
	County            string        // code of the county that administers the farm
	Tract             string
	PhysicalCounty    string // code of the county of the land; "": as County
	Commodity         crop.Commodity
	BaseAcres         crop.Acres
	PaymentYield      *crop.Yield
	IrrigatedShare    *crop.Share
	CRPReduction      *crop.Acres
	Election          farm.Program  // "": none on record
	Contract          farm.Contract // "": not given
	Lease             farm.Lease
	STAXBought        *bool
	Producer          string // "": not named
	Share             *crop.Share
	TotalAcres        *crop.Acres
	Cropland          *crop.Acres
	Unassigned        *crop.Acres
	Idle20092017      *bool
	MergeWith         string
	Choice            farm.Program // of the crop year; "": none typed
	Signed            farm.Signature
	Insured           *farm.Insurance // nil: none, or not asked for
}

// FarmKey names the row's farm across counties, as farm.Farm.Key does.
func (r Row) FarmKey() string { return farm.Farm{County: r.County, Number: r.Farm}.Key() }

// Values returns the row as text in the order of Columns, without area insurance. Reading
// these values gives the same row but for that.
func (r Row) Values() []string {
	v := make([]string, farmColumnCount)
	r.putValues(v)
	return v
}

// putValues puts the values into v, one for each column.
func (r *Row) putValues(v []string) {
	clear(v)
	v[clientColumn], v[operationColumn] = r.Client, r.Operation
	v[farmColumn], v[countyColumn], v[tractColumn] = r.Farm, r.County, r.Tract
	if len(r.County) >= stateDigits {
		v[stateColumn] = r.County[:stateDigits]
	}
	v[physicalCountyColumn], v[commodityColumn] = r.PhysicalCounty, string(r.Commodity)
	if r.CropYear != 0 {
		v[cropYearColumn] = strconv.Itoa(r.CropYear)
	}
	v[baseAcresColumn] = show(r.BaseAcres)
	v[paymentYieldColumn], v[irrigatedShareColumn], v[crpReductionColumn] = showIf(r.PaymentYield), showIf(r.IrrigatedShare), showIf(r.CRPReduction)
	v[electionColumn], v[contractColumn], v[leaseColumn] = string(r.Election), string(r.Contract), string(r.Lease)
	v[staxColumn], v[idleColumn] = yesOrNo(r.STAXBought), yesOrNo(r.Idle20092017)
	v[producerColumn], v[shareColumn] = r.Producer, showIf(r.Share)
	v[totalAcresColumn], v[croplandColumn], v[unassignedColumn] = showIf(r.TotalAcres), showIf(r.Cropland), showIf(r.Unassigned)
	v[mergeWithColumn] = r.MergeWith
	v[choiceColumn], v[signedColumn] = string(r.Choice), string(r.Signed.Signed)
	if r.Signed.On != "" {
		v[signedColumn] = r.Signed.On
	}
}

// show writes a number in full, so that reading it gives the same one.
func show(number float64) string { return strconv.FormatFloat(number, 'f', -1, 64) }

func showIf(number *float64) string {
	if number == nil {
		return ""
	}
	return show(*number)
}

func yesOrNo(truth *bool) string {
	switch {
	case truth == nil:
		return ""
	case *truth:
		return "yes"
	}
	return "no"
}

// Refusal is one thing wrong with a row: what, where, which value, what to do.
type Refusal struct {
	Line                        int
	Column, Value, Reason, Hint string
}

// Cell returns the value as a cell of a table: as it was typed, after a ' where a spreadsheet
// would take it for a formula. Names need none, for those that begin a formula are refused.
func (r Refusal) Cell() string {
	if spelling.BeginsFormula(r.Value) {
		return "'" + r.Value
	}
	return r.Value
}
