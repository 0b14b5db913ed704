package farmtable_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	. "fencerow/io/read/farmtable"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// assembled reads and joins rows of one operation that are all good.
func assembled(t *testing.T, rows ...cells) Operation {
	t.Helper()
	good, refused := readAll(t, put(t, "farms.csv", text(t, grid(rows...))))
	require.Empty(t, refused)
	found, refused := Assemble(good)
	require.Empty(t, refused)
	return found
}

// Rows of an operation become its farms, bases and producers.
func TestAssemble(t *testing.T) {
	got := assembled(t,
		but(cells{"crop_year": "2026", "producer": "ann", "share": "60%", "tract": "1", "irrigated_share": "35%", "crp_reduction": "4", "election_on_record": "PLC", "contract": "signed", "stax_bought": "yes"}),
		but(cells{"crop_year": "2026", "producer": "bob", "share": "40%", "tract": "1", "lease": "share", "total_acres": "400", "cropland": "390", "unassigned_base_acres": "3", "idle_2009_2017": "yes", "merge_with": "0418"}),
		but(cells{"crop_year": "2026", "producer": "ann", "commodity": "oats", "payment_yield": "", "physical_county": "99003"}),
	)
	require.Equal(t, Operation{
		Client: "client 12", Name: "home farms", CropYears: []crop.CropYear{2026}, Incomplete: map[string]bool{},
		Farms: farm.Operation{
			CropYears: []crop.CropYear{2026},
			Producers: []farm.Producer{{ID: "ann", Kind: farm.Person, TenAcreExempt: farm.NotExempt}, {ID: "bob", Kind: farm.Person, TenAcreExempt: farm.NotExempt}},
			Farms: []farm.Farm{{
				Number: "0417", County: "99001", Contract: farm.ByCropYear[farm.Contract]{Year: map[int]farm.Contract{2026: farm.Signed}},
				Record: map[crop.Commodity]farm.Program{crop.Corn: farm.PLC}, Lease: farm.ShareLease, TotalAcres: pointer(400.0), Cropland: pointer(390.0),
				Idle20092017: true, Unassigned: 3, MergeWith: "0418", STAXBought: map[int]bool{2026: true},
				Bases: []farm.Base{
					{Commodity: crop.Corn, BaseAcres: 120, PaymentYield: pointer(150.0), Tract: "1", IrrigatedShare: pointer(0.35), CRPReduction: 4, Shares: farm.Shares{"ann": 0.6, "bob": 0.4}},
					{Commodity: crop.Oats, BaseAcres: 120, County: "99003", Shares: farm.Shares{"ann": 1}},
				},
			}},
		},
	}, got)
}

// Without producers one person has all; equal shares stand at the farm, as in an
// operation file.
func TestSharesOfTheFarm(t *testing.T) {
	got := assembled(t, but(nil), but(cells{"commodity": "oats", "payment_yield": ""}))
	require.Equal(t, "operator", got.Farms.Producers[0].ID)
	require.Equal(t, farm.Shares{"operator": 1}, *got.Farms.Farms[0].Shares.Every)
	require.Nil(t, got.Farms.Farms[0].Bases[0].Shares)
	got = assembled(t, but(cells{"share": "50%"}))
	require.Equal(t, farm.Shares{"operator": 0.5}, *got.Farms.Farms[0].Shares.Every)
}

// A base may stand once for each crop year; what is given in one row holds.
func TestSeveralCropYears(t *testing.T) {
	got := assembled(t, but(cells{"crop_year": "2027", "share": "0.5"}), but(cells{"crop_year": "2026", "contract": "open"}))
	require.Equal(t, []crop.CropYear{2026, 2027}, got.CropYears)
	require.Len(t, got.Farms.Farms[0].Bases, 1)
	require.Equal(t, map[int]farm.Contract{2026: farm.Open}, got.Farms.Farms[0].Contract.Year)
	require.Equal(t, farm.Shares{"operator": 0.5}, *got.Farms.Farms[0].Shares.Every)
}

// An answer on STAX without a crop year holds for every year of the law, a
// contract likewise.
func TestWithoutCropYear(t *testing.T) {
	got := assembled(t, but(cells{"stax_bought": "yes", "contract": "missed"}))
	require.Empty(t, got.CropYears)
	require.True(t, got.Farms.Farms[0].STAXBought[2026] && got.Farms.Farms[0].STAXBought[2031])
	contract, _ := got.Farms.Farms[0].Contract.In(2026)
	require.Equal(t, farm.Missed, contract)
}

// The farm of a refused row is incomplete; where only a part of its key could be
// read, so is every farm with that part.
func TestIncomplete(t *testing.T) {
	rows, _ := readAll(t, put(t, "farms.csv", text(t, grid(but(nil), but(cells{"county": "99003"}), but(cells{"farm": "5"})))))
	for _, c := range []struct {
		key  string
		want map[string]bool
	}{
		{"99001-0417", map[string]bool{"99001-0417": true}},
		{"99001-77", map[string]bool{"99001-77": true}},
		{"-0417", map[string]bool{"99001-0417": true, "99003-0417": true}},
		{"99001-", map[string]bool{"99001-0417": true, "99001-5": true}},
		{"-", map[string]bool{"99001-0417": true, "99003-0417": true, "99001-5": true}},
	} {
		found, refused := Assemble(rows, c.key)
		require.Empty(t, refused)
		require.Equal(t, c.want, found.Incomplete, c.key)
	}
}

// No rows are no farms.
func TestNoRows(t *testing.T) {
	found, refused := Assemble(nil)
	require.Empty(t, refused)
	require.Empty(t, found.Farms.Farms)
}
