package explain

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// steps returns the arithmetic, each line made of those above. Plantings are as typed,
// so that no figure made of them has a firmer status than assumed.
func (t newBaseTerms) steps(f farm.Farm, n program.NewBase, before, added crop.Acres, factor float64) []Step {
	s := stepList{}
	for _, c := range crop.Commodities() {
		t.plantings(&s, f, string(c))
	}
	s.exact(program.StepCoveredMean, "", n.CoveredMean, "", crop.Assumed)
	t.plantings(&s, f, position.FruitVegetables)
	t.plantings(&s, f, otherNoncovered)
	s.exact(program.StepNoncoveredMean, "", n.NoncoveredMean, "", crop.Assumed)
	s.add(program.StepTotalAcres, "", n.TotalAcres, 2, farmRecord, crop.Agency)
	s.row(program.StepNoncoveredShare, t.share, "")
	s.exact(program.StepNoncoveredCounted, "", n.Noncovered(), "the average, at most that share of total acres; ", crop.Assumed)
	s.exact(program.StepFiveYearSum, "", n.FiveYearSum(), "covered average and noncovered counted; ", crop.Assumed)
	if n.FiveYearSum() > n.TotalAcres {
		s.exact(program.StepWithinTotalAcres, "", n.TotalAcres, "base never exceeds the farm's total acres; ", crop.Assumed)
	}
	s.add(program.StepExistingBase, "", n.ExistingBase, 2, "in effect on September 30, 2024, without unassigned base; "+farmRecord, crop.Agency)
	s.add(program.StepAddedBeforeFactor, "", before, 2, "above the existing base; ", crop.Assumed)
	s.exact(program.StepNationalFactor, "", factor, sourceOfFactor(factor), crop.Assumed)
	s.add(program.StepAdded, "", added, 2, "", crop.Assumed)
	return s.steps
}

// plantings adds the five years of a crop and their mean; nothing where it was never
// planted.
func (t newBaseTerms) plantings(s *stepList, f farm.Farm, commodity string) {
	mean := t.mean(f, commodity)
	if mean == 0 {
		return
	}
	first, last := t.years()
	for y := first; y <= last; y++ {
		s.exact(program.StepPlanted, fmt.Sprintf("_%d_%s", y, commodity), history(f, commodity, y), "planted and prevented; as given", crop.Assumed)
	}
	s.exact(program.StepMeanPlanted, "_"+commodity, mean, fmt.Sprintf("average of the years %d-%d, also those with nothing; ", first, last), crop.Assumed)
}

// sourceOfFactor says whether the national factor is the user's.
func sourceOfFactor(factor float64) string {
	if factor == 1 {
		return "no cut: none was found announced"
	}
	return "as given"
}

// notes returns what holds for every farm and is not in the arithmetic.
func (t newBaseTerms) notes(factor float64) []string {
	return []string{
		fmt.Sprintf("New base belongs to the land: the owner decides, not the tenant. It is added unless the owner declined within %.0f days of the notice. Compare these acres with the notice: the notice counts. An owner whose farm was found not eligible can ask the county committee for a review within %.0f days of the notice.", t.reply.Number, t.appeal.Number),
		"The base compared is that of September 30, 2024. A farm record printed since then may already hold the new base. Enter the base without it, or the new base shown here is too small.",
		fmt.Sprintf("National factor: %.4g (%s, %s). New base of all farms is cut in proportion if it is above %.0f million acres.", factor, crop.Assumed, sourceOfFactor(factor), t.limit.Number/1e6),
		"New base carries the farm's existing PLC yield for the crop. Where there is none, it carries the county average or the yield of similar farms, not known here.",
		fmt.Sprintf("Fruit, vegetables and other_noncovered are taken as eligible noncovered crops (%s). Leave out trees, bushes, vines, grass, pasture, idle and fallow.", crop.Assumed),
	}
}

// farmNotes returns what holds for one farm.
func (t newBaseTerms) farmNotes(f farm.Farm) []string {
	notes := []string{}
	first, last := t.years()
	var empty []string
	for y := first; y <= last; y++ {
		if !slices.ContainsFunc(f.Planted, func(p farm.Planting) bool { return p.CropYear == y }) {
			empty = append(empty, fmt.Sprint(y))
		}
	}
	if len(empty) > 0 && len(empty) < last-first+1 {
		notes = append(notes, fmt.Sprintf("Nothing is entered as planted in %s. That counts as zero, as the law counts a year without plantings. Check that nothing is missing.", strings.Join(empty, ", ")))
	}
	if f.Unassigned > 0 {
		notes = append(notes, fmt.Sprintf("The %.2f acres of unassigned base are not in the base compared. FSA said that new base goes on unassigned base first.", f.Unassigned))
	}
	return notes
}

// croplandNotes returns a note where base, new base and CRP reduction come to more than
// the cropland, where that is given.
func croplandNotes(f farm.Farm, added crop.Acres) []string {
	if f.Cropland == nil || added == 0 {
		return nil
	}
	sum := f.BaseAcres() + added
	for _, b := range f.Bases {
		sum += b.CRPReduction
	}
	if program.Round(sum, 2) <= *f.Cropland {
		return nil
	}
	return []string{fmt.Sprintf("With the new base, base and CRP reduction add to %.2f acres on %.2f acres of cropland. That takes approved double cropping (7 U.S.C. 9012(b)). Without it, the owner picks the base to cut. It is not cut here: ask the county office.", sum, *f.Cropland)}
}
