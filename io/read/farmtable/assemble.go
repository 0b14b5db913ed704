package farmtable

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Operation is what the rows of one name describe together.
type Operation struct {
	Client, Name string
	CropYears    []crop.CropYear // asked about; empty: the table does not say
	Farms        farm.Operation  // farms and producers, in the order of their rows
	Incomplete   map[string]bool // keys of farms that lack a refused row
}

// gathering is an operation that is being put together.
type gathering struct {
	rows    []Row
	farms   map[string]*gatheredFarm // by key
	order   []*gatheredFarm
	named   []string // producers, in the order of their rows
	years   map[crop.CropYear]bool
	refused []Refusal
	broken  map[string]bool // keys of farms with a refused row
}

// Assemble joins the rows of one operation. refusedFarms are the keys of farms
// that lost a row in reading (Row.FarmKey of the refused row); where county or
// number could not be read, every farm with the other part is meant. What does
// not fit together is refused, its farm named in Incomplete.
func Assemble(rows []Row, refusedFarms ...string) (Operation, []Refusal) {
	g := &gathering{rows: rows, farms: map[string]*gatheredFarm{}, years: map[crop.CropYear]bool{}, broken: map[string]bool{}}
	for _, row := range rows {
		g.years[row.CropYear] = true
		if row.Producer != "" && !slices.Contains(g.named, row.Producer) {
			g.named = append(g.named, row.Producer)
		}
	}
	for _, row := range rows {
		g.farmOf(row).take(row)
	}
	for _, key := range refusedFarms {
		g.lost(key)
	}
	g.refuseLostZeros()
	for _, f := range g.order {
		f.finish()
	}
	slices.SortStableFunc(g.refused, func(a, b Refusal) int { return cmp.Compare(a.Line, b.Line) })
	return g.operation(), g.refused
}

// farmOf returns the farm of a row, new where no row spoke of it.
func (g *gathering) farmOf(row Row) *gatheredFarm {
	f, known := g.farms[row.FarmKey()]
	if !known {
		f = &gatheredFarm{gathering: g, first: row, bases: map[place]*gatheredBase{}}
		f.farm = farm.Farm{Number: row.Farm, County: row.County, Record: map[crop.Commodity]farm.Program{}}
		g.farms[row.FarmKey()] = f
		g.order = append(g.order, f)
	}
	return f
}

// lost marks the farms that a refused row may belong to.
func (g *gathering) lost(key string) {
	county, number, _ := strings.Cut(key, "-")
	if county != "" && number != "" {
		g.broken[key] = true
		return
	}
	for _, f := range g.order {
		if (county == "" || county == f.farm.County) && (number == "" || number == f.farm.Number) {
			g.broken[f.farm.Key()] = true
		}
	}
}

func (g *gathering) refuse(row Row, c column, reason, hint string) {
	g.refused = append(g.refused, Refusal{row.Line, columns[c].name, row.Values()[c], reason, hint})
	g.broken[row.FarmKey()] = true
}

// refuseLostZeros refuses two farms of a county whose numbers differ by leading
// zeros only: they are most likely one.
func (g *gathering) refuseLostZeros() {
	first := map[string]*gatheredFarm{}
	for _, f := range g.order {
		bare := f.farm.County + "-" + strings.TrimLeft(f.farm.Number, "0")
		if other, twice := first[bare]; twice {
			g.refuse(f.first, farmColumn, fmt.Sprintf("farm is %q, and %q on line %d", f.farm.Number, other.farm.Number, other.first.Line), "write the farm number alike in every row")
			g.broken[other.farm.Key()] = true
			continue
		}
		first[bare] = f
	}
}

// operation returns what was gathered.
func (g *gathering) operation() Operation {
	o := Operation{Incomplete: g.broken}
	if len(g.rows) > 0 {
		o.Client, o.Name = g.rows[0].Client, g.rows[0].Operation
	}
	for _, year := range slices.Sorted(maps.Keys(g.years)) {
		if year != 0 {
			o.CropYears = append(o.CropYears, year)
		}
	}
	o.Farms.CropYears = slices.Clone(o.CropYears)
	named := g.named
	if len(named) == 0 {
		named = []string{farm.SoleProducer}
	}
	for _, id := range named {
		o.Farms.Producers = append(o.Farms.Producers, farm.Producer{ID: id, Kind: farm.Person, TenAcreExempt: farm.NotExempt})
	}
	for _, f := range g.order {
		o.Farms.Farms = append(o.Farms.Farms, f.farm)
	}
	return o
}
