package since

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"encoding/json"
	"slices"

	"fencerow/io/batch/kept"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// inputsFormat names answer.Inputs.
const inputsFormat = "fencerow/inputs/1"

// Keep returns what the margins of the answer to a question rest on. version is that of the
// program. The same question gives the same bytes.
func Keep(q answer.Question, version string) (*answer.Inputs, error) {
	all := answer.Inputs{Format: inputsFormat, Version: version, CloseMargin: q.CloseMargin(), Farms: []answer.FarmInputs{}}
	for _, f := range q.Operation.Farms {
		all.Farms = append(all.Farms, farmInputs(f, q.CropYears))
	}
	var err error
	all.Figures, err = packed(kept.Figures{Market: q.Market, Counties: countiesOf(q.Counties, all.Farms), Law: kept.Law()})
	return &all, err
}

// farmInputs are what the margins of a farm rest on in some crop years: no producer, no
// share and no plan.
func farmInputs(f farm.Farm, years []crop.CropYear) answer.FarmInputs {
	one := answer.FarmInputs{Farm: f.Number, County: f.County, Idle: f.Idle20092017, Bases: []answer.BaseInputs{}}
	for _, y := range years {
		if contract, _ := f.Contract.In(y); contract == farm.Missed {
			one.Missed = append(one.Missed, y)
		}
	}
	for _, p := range f.Planted {
		if p.Commodity == farm.FruitVegetables && slices.Contains(years, p.CropYear) {
			one.Fruit = append(one.Fruit, answer.FruitAcres{CropYear: p.CropYear, Acres: p.Acres, OnBase: p.OnBase})
		}
	}
	for _, b := range f.Bases {
		one.Bases = append(one.Bases, answer.BaseInputs{Commodity: b.Commodity, BaseAcres: b.BaseAcres, PaymentYield: b.PaymentYield, County: b.County, IrrigatedShare: b.IrrigatedShare})
	}
	return one
}

// farmOf is the farm that inputs stand for.
func farmOf(in answer.FarmInputs) farm.Farm {
	f := farm.Farm{Number: in.Farm, County: in.County, Idle20092017: in.Idle}
	f.Contract.Year = map[crop.CropYear]farm.Contract{}
	for _, y := range in.Missed {
		f.Contract.Year[y] = farm.Missed
	}
	for _, p := range in.Fruit {
		f.Planted = append(f.Planted, farm.Planting{CropYear: p.CropYear, Commodity: farm.FruitVegetables, Practice: farm.AllPractices, Acres: p.Acres, OnBase: p.OnBase})
	}
	for _, b := range in.Bases {
		f.Bases = append(f.Bases, farm.Base{Commodity: b.Commodity, BaseAcres: b.BaseAcres, PaymentYield: b.PaymentYield, County: b.County, IrrigatedShare: b.IrrigatedShare})
	}
	return f
}

// countiesOf returns a book with the crops of some farms in their States alone: no margin
// needs another county or crop.
func countiesOf(book farm.CountyBook, farms []answer.FarmInputs) farm.CountyBook {
	states, crops := map[string]bool{}, map[crop.Commodity]bool{}
	for _, f := range farms {
		states[kept.StateOf(f.County)] = true
		for _, b := range f.Bases {
			states[kept.StateOf(b.County)], crops[b.Commodity] = true, true
		}
	}
	some := kept.OfStates(book, states)
	for _, source := range some {
		for code, county := range source.Counties {
			county.Yields = slices.DeleteFunc(slices.Clone(county.Yields), func(y farm.CountyYield) bool { return !crops[y.Commodity] })
			source.Counties[code] = county
			if len(county.Yields) == 0 {
				delete(source.Counties, code)
			}
		}
	}
	return slices.DeleteFunc(some, func(source farm.CountySource) bool { return len(source.Counties) == 0 })
}

// packed is the text of Inputs.Figures.
func packed(figures kept.Figures) (string, error) {
	var out bytes.Buffer
	zip := gzip.NewWriter(&out)
	if err := json.NewEncoder(zip).Encode(figures); err != nil {
		return "", err
	}
	if err := zip.Close(); err != nil {
		return "", err
	}
	return base64.StdEncoding.EncodeToString(out.Bytes()), nil
}

// unpacked reads what packed wrote.
func unpacked(text string) (figures kept.Figures, err error) {
	raw, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return figures, err
	}
	zip, err := gzip.NewReader(bytes.NewReader(raw))
	if err != nil {
		return figures, err
	}
	return figures, json.NewDecoder(zip).Decode(&figures)
}
