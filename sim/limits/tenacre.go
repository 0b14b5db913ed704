package limits

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/position"
)

// tenAcreRule says which producers are paid nothing because they have too little base.
type tenAcreRule struct {
	Row       law.Figure            // least base acres
	EachFarm  bool                  // counted by farm; else over all farms of the producer
	BaseAcres map[string]crop.Acres // by producer id, on farms of this file and on others
	barred    map[string]map[string]bool
}

// Bars reports whether a producer (id) is paid nothing on a farm (farm.Farm.Key).
func (r tenAcreRule) Bars(producer, farmKey string) bool { return r.barred[producer][farmKey] }

// newTenAcreRule applies the crop year's rule to every producer of an operation. All base
// acres of a farm count, whatever the size of the producer's share in it.
func newTenAcreRule(o farm.Operation, y crop.CropYear) (tenAcreRule, error) {
	r := tenAcreRule{barred: map[string]map[string]bool{}, BaseAcres: map[string]crop.Acres{}}
	var err error
	if r.Row, err = law.Find("least_base_acres", "", y); err != nil {
		return r, err
	}
	counted, err := law.Find("least_base_acres_counted", "", y)
	if err != nil {
		return r, err
	}
	r.EachFarm = counted.Text == "each_farm"
	for _, p := range o.Producers {
		r.BaseAcres[p.ID] = p.OtherBaseAcres
		var farms []farm.Farm
		for _, f := range o.Farms {
			if position.HasShare(f, p.ID, y) {
				farms = append(farms, f)
				r.BaseAcres[p.ID] += f.BaseAcres()
			}
		}
		r.barred[p.ID] = map[string]bool{}
		for _, f := range farms {
			acres := r.BaseAcres[p.ID]
			if r.EachFarm {
				acres = f.BaseAcres()
			}
			r.barred[p.ID][f.Key()] = program.TenAcreBars(acres, r.Row.Number, tenAcreExempt(p, y))
		}
	}
	return r, nil
}

// tenAcreExempt reports whether the law of a crop year exempts a producer from the rule.
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
