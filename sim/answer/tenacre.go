package answer

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// tenAcreRule says which producers are paid nothing because of too little base.
type tenAcreRule struct {
	row       law.Figure
	eachFarm  bool // counted farm by farm, not over all farms of the producer
	barred    map[string]map[string]bool
	baseAcres map[string]crop.Acres // by producer, in and outside the file
}

// bars reports whether a producer is paid nothing on a farm.
func (r tenAcreRule) bars(producer, farmKey string) bool { return r.barred[producer][farmKey] }

// newTenAcreRule works out the rule for every producer of the file. All base of a
// farm counts for each producer with a share in it.
func newTenAcreRule(o farm.Operation, y crop.CropYear) (tenAcreRule, error) {
	r := tenAcreRule{barred: map[string]map[string]bool{}, baseAcres: map[string]crop.Acres{}}
	var err error
	if r.row, err = law.Find("least_base_acres", "", y); err != nil {
		return r, err
	}
	counted, err := law.Find("least_base_acres_counted", "", y)
	if err != nil {
		return r, err
	}
	r.eachFarm = counted.Text == "each_farm"
	for _, p := range o.Producers {
		r.baseAcres[p.ID] = p.OtherBaseAcres
		var farms []farm.Farm
		for _, f := range o.Farms {
			if hasShare(f, p.ID, y) {
				farms = append(farms, f)
				r.baseAcres[p.ID] += f.BaseAcres()
			}
		}
		r.barred[p.ID] = map[string]bool{}
		for _, f := range farms {
			acres := r.baseAcres[p.ID]
			if r.eachFarm {
				acres = f.BaseAcres()
			}
			r.barred[p.ID][f.Key()] = program.TenAcreBars(acres, r.row.Number, tenAcreExempt(p, y))
		}
	}
	return r, nil
}

// tenAcreExempt reports whether the law of a crop year exempts a producer.
func tenAcreExempt(p farm.Producer, y crop.CropYear) bool {
	if p.TenAcreExempt == farm.NotExempt || p.TenAcreExempt == "" {
		return false
	}
	ids := map[farm.Exemption]string{
		farm.LimitedResource: "ten_acre_exempt_limited_resource", farm.SociallyDisadvantaged: "ten_acre_exempt_socially_disadvantaged",
		farm.Beginning: "ten_acre_exempt_beginning", farm.Veteran: "ten_acre_exempt_veteran",
	}
	_, err := law.Find(ids[p.TenAcreExempt], "", y)
	return err == nil
}

// hasShare reports whether a producer has a share in any base of a farm.
func hasShare(f farm.Farm, id string, y crop.CropYear) bool {
	for _, b := range f.Bases {
		if sharesOf(f, b, y)[id] > 0 {
			return true
		}
	}
	return false
}

// tenAcres names each producer of the farm who is paid nothing by the rule.
func tenAcres(c flagCase) []Flag {
	rule := c.people.tenAcres
	var flags []Flag
	for _, p := range c.Operation.Producers {
		if !rule.bars(p.ID, c.farm.Key()) {
			continue
		}
		where := fmt.Sprintf("%.2f base acres on all farms here and elsewhere (other_base_acres)", rule.baseAcres[p.ID])
		if rule.eachFarm {
			where = fmt.Sprintf("%.2f base acres on this farm", c.farm.BaseAcres())
		}
		message := fmt.Sprintf("Producer %s has %s: with %.0f or fewer, ARC and PLC pay nothing for crop year %d. If there is base on farms outside this file, enter other_base_acres; beginning, limited resource, socially disadvantaged and veteran farmers are exempt (ten_acre_exempt), after certifying it at the county office.", p.ID, where, rule.row.Number, c.cropYear)
		flags = append(flags, Flag{"ten_acres", Error, message, rule.row.Citation()})
	}
	return flags
}
