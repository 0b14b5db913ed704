package odds

import (
	"fencerow/program/crop"
)

// importance lists the commodities in the order in which they get Sobol dimensions:
// the early ones fill their space most evenly. Commodities with measured correlations
// come before those that follow another.
var importance = []crop.Commodity{
	crop.Corn, crop.Soybeans, crop.Wheat, crop.GrainSorghum, crop.SeedCotton, crop.LongGrainRice, crop.Barley,
	crop.Peanuts, crop.Oats, crop.Canola, crop.SunflowerSeed, crop.DryPeas, crop.Flaxseed,
	crop.MediumGrainRice, crop.TemperateJaponicaRice, crop.Lentils, crop.SmallChickpeas, crop.LargeChickpeas,
	crop.Safflower, crop.SesameSeed, crop.MustardSeed, crop.Rapeseed, crop.Crambe,
}

// Which measured commodity one without measurements is likened to. All four
// lists are judgements, by use, region and season of growth.

// priceFollows: prices whose correlations are not measured.
var priceFollows = map[crop.Commodity]crop.Commodity{
	crop.MediumGrainRice: crop.LongGrainRice, crop.TemperateJaponicaRice: crop.LongGrainRice,
	crop.Lentils: crop.DryPeas, crop.SmallChickpeas: crop.DryPeas, crop.LargeChickpeas: crop.DryPeas,
	crop.Safflower: crop.SunflowerSeed, crop.SesameSeed: crop.SunflowerSeed,
	crop.MustardSeed: crop.Canola, crop.Rapeseed: crop.Canola, crop.Crambe: crop.Canola,
}

// yieldFollows: yields whose correlations are not measured.
var yieldFollows = map[crop.Commodity]crop.Commodity{
	crop.MediumGrainRice: crop.LongGrainRice, crop.TemperateJaponicaRice: crop.LongGrainRice,
	crop.Peanuts: crop.SeedCotton, crop.SesameSeed: crop.SeedCotton, crop.SunflowerSeed: crop.Corn,
	crop.Oats: crop.Barley, crop.Canola: crop.Barley, crop.Flaxseed: crop.Barley, crop.DryPeas: crop.Barley,
	crop.Lentils: crop.Barley, crop.SmallChickpeas: crop.Barley, crop.LargeChickpeas: crop.Barley,
	crop.Safflower: crop.Barley, crop.MustardSeed: crop.Barley, crop.Rapeseed: crop.Barley, crop.Crambe: crop.Barley,
}

// errorFollows: prices that USDA does not forecast every month.
var errorFollows = map[crop.Commodity]crop.Commodity{
	crop.Peanuts: crop.Soybeans, crop.Canola: crop.Soybeans, crop.SunflowerSeed: crop.Soybeans,
	crop.Flaxseed: crop.Soybeans, crop.Safflower: crop.Soybeans, crop.SesameSeed: crop.Soybeans,
	crop.MustardSeed: crop.Soybeans, crop.Rapeseed: crop.Soybeans, crop.Crambe: crop.Soybeans,
	crop.DryPeas: crop.Wheat, crop.Lentils: crop.Wheat, crop.SmallChickpeas: crop.Wheat, crop.LargeChickpeas: crop.Wheat,
}

// cvFollows: commodities without a measured coefficient of variation of county yields.
var cvFollows = map[crop.Commodity]crop.Commodity{
	crop.MediumGrainRice: crop.LongGrainRice, crop.TemperateJaponicaRice: crop.LongGrainRice,
	crop.SeedCotton: crop.GrainSorghum, crop.Flaxseed: crop.Canola, crop.MustardSeed: crop.Canola,
	crop.Rapeseed: crop.Canola, crop.Crambe: crop.Canola,
	crop.Safflower: crop.SunflowerSeed, crop.SesameSeed: crop.SunflowerSeed,
	crop.DryPeas: crop.Wheat, crop.Lentils: crop.Wheat, crop.SmallChickpeas: crop.Wheat, crop.LargeChickpeas: crop.Wheat,
}
