package insured

import (
	"maps"
	"slices"
	"strings"

	"fencerow/io/batch/names"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Of returns the lines of an operation, none where nothing is insured. A farm of which rows
// were refused (incomplete, by key) has no lines of the whole farm. labels masks names.
func Of(client, operation string, c answer.Comparison, incomplete map[string]bool, labels names.Labels) (all []Line) {
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			if f.Insurance == nil {
				continue
			}
			lines := ofCrops(f)
			if !incomplete[f.Farm] {
				lines = append(lines, ofFarm(f)...)
			}
			for _, l := range lines {
				l.Client, l.Operation, l.Farm, l.CropYear = labels.Client(client), labels.Operation(client, operation), labels.Farm(f.Farm), int32(y.CropYear)
				all = append(all, l)
			}
		}
	}
	return all
}

// ofCrops are the lines of each insured crop of a farm.
func ofCrops(f answer.FarmPart) (all []Line) {
	for _, k := range f.Insurance.Crops {
		crop := Line{Commodity: string(k.Commodity), County: k.County, Practice: k.Practice, Plan: string(k.Plan), InsuredAcres: float64(k.InsuredAcres), BaseAcres: float64(k.BaseAcres),
			Share: (*float64)(&k.Share), Missing: k.Missing, Apart: strings.Join(k.Apart, " "), Sales: k.Sales.Standing, LastDay: k.Sales.LastDay}
		if k.Level != 0 {
			crop.Level = (*float64)(&k.Level)
		}
		elected := lastElected(f, k)
		for _, row := range k.Together {
			l := crop
			l.Program, l.LastElected = string(row.Program), row.Program != "" && row.Program == elected
			l.take(row)
			switch {
			case len(row.Layers) == 1 && row.Program == "":
				l.takeLayer(k.Layers, row.Layers[0])
			case len(row.Layers) == 1:
				l.takeOverlap(k.Overlap, row)
			}
			all = append(all, l)
		}
		all = append(all, without(crop, k)...)
	}
	return all
}

// without are the lines of the layers of a crop that have no figures, and why.
func without(crop Line, k answer.InsuredCrop) (all []Line) {
	for _, layer := range k.Layers {
		if k.Missing == "" && layer.Missing == "" {
			continue
		}
		l := crop
		l.Layers = string(layer.Layer)
		if layer.Missing != "" {
			l.Missing = layer.Missing
		}
		all = append(all, l)
	}
	return all
}

// lastElected is the program last elected for a crop, "" for none.
func lastElected(f answer.FarmPart, k answer.InsuredCrop) farm.Program {
	for _, part := range f.Commodities {
		if part.Commodity == k.Commodity && part.OnRecord != nil {
			return *part.OnRecord
		}
	}
	return ""
}

// ofFarm are the lines of the whole farm.
func ofFarm(f answer.FarmPart) (all []Line) {
	recorded := answer.Choice{}
	for _, part := range f.Commodities {
		if part.OnRecord != nil {
			recorded[part.Commodity] = *part.OnRecord
		}
	}
	for i, row := range f.Insurance.WholeFarm {
		if i > 0 && len(row.Layers) == 0 && maps.Equal(row.Choice, f.Insurance.WholeFarm[i-1].Choice) { // with layers, of which none can be had
			continue
		}
		l := Line{InsuredAcres: float64(f.Insurance.InsuredAcres), BaseAcres: float64(f.Insurance.BaseAcres), LastElected: len(row.Choice) > 0 && maps.Equal(row.Choice, recorded)}
		var choice []string
		for _, c := range row.Choice.Commodities() {
			choice = append(choice, string(c)+"="+string(row.Choice[c]))
		}
		l.Choice = strings.Join(choice, " ")
		l.take(row)
		all = append(all, l)
	}
	return all
}

// take takes what a row averages.
func (l *Line) take(row answer.InsuranceRow) {
	var layers []string
	for _, one := range row.Layers {
		layers = append(layers, string(one))
	}
	l.Layers, l.PremiumMissing = strings.Join(layers, " "), row.PremiumMissing
	l.Mean, l.Poor, l.Worst = (*float64)(row.Average), (*float64)(row.Poor), (*float64)(row.Worst)
	l.PerInsuredAcre, l.PerBaseAcre = (*float64)(row.PerInsuredAcre), (*float64)(row.PerBaseAcre)
}

// takeLayer takes what one layer covers, pays and costs.
func (l *Line) takeLayer(all []answer.InsuredLayer, of farm.Program) {
	at := slices.IndexFunc(all, func(one answer.InsuredLayer) bool { return one.Layer == of })
	one := all[at] // rows are of layers that are there
	l.Trigger, l.LowerEnd, l.Percentage = (*float64)(&one.Trigger), (*float64)(&one.LowerEnd), (*float64)(&one.Percentage)
	l.Protection, l.PaysBelow, l.Average = (*float64)(one.Protection), (*float64)(one.PaysBelow), (*float64)(one.Average)
	l.ChanceOfPayment, l.ChanceOfMost = (*float64)(one.ChanceOfPayment), (*float64)(one.ChanceOfMost)
	l.Premium, l.Fee, l.Net, l.NetAtShare = (*float64)(one.Premium), (*float64)(&one.Fee), (*float64)(one.Net), (*float64)(one.NetAtShare)
}

// takeOverlap takes how often the program and the layer of a row pay on the same loss.
func (l *Line) takeOverlap(all []answer.Overlap, row answer.InsuranceRow) {
	for _, o := range all {
		if o.Program == row.Program && o.Layer == row.Layers[0] {
			l.Both, l.OnlyProgram, l.OnlyLayer, l.Neither = (*float64)(&o.Both), (*float64)(&o.OnlyProgram), (*float64)(&o.OnlyLayer), (*float64)(&o.Neither)
		}
	}
}
