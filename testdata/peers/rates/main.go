// Command rates writes the payment rates that batch pays invented farms by, for w3_numpy.py:
//
//	rates FOLDER DRAWS OUT
//
// FOLDER is that of invent.py. OUT/index.csv names a series a line: program, commodity, county
// ("" under PLC); OUT/rates has them in that order, by scenario, as little-endian 64-bit floats.
// The seed is batch's own. OUT/facts.csv has the payment-acre share.
package main

import (
	"encoding/binary"
	"encoding/csv"
	"log"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"time"

	"fencerow/io/source"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/payoff"
	"fencerow/sim/scenario"
)

const cropYear, seed = 2026, 1

func main() {
	log.SetFlags(0)
	if len(os.Args) != 4 {
		log.Fatal("usage: rates FOLDER DRAWS OUT")
	}
	draws, err := strconv.Atoi(os.Args[2])
	if err == nil {
		err = write(os.Args[1], draws, os.Args[3])
	}
	if err != nil {
		log.Fatal(err)
	}
}

func write(folder string, draws int, out string) error {
	found, err := source.Question(source.Request{Files: os.DirFS(folder), CountyFolder: "counties", Market: "market.yaml", ManyOperations: true, WithoutBuiltIn: true,
		Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: seed, Draws: draws})
	if err != nil {
		return err
	}
	drawn, err := scenario.NewPaths(found.Question.Sources(), scenario.Settings{Seed: seed, Draws: draws, Brief: true}).Year(cropYear)
	if err != nil {
		return err
	}
	year := &payoff.Year{Year: drawn}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	var index [][]string
	var series []byte
	share, known := 0.0, map[crop.Commodity]bool{}
	counties := found.Question.Counties[0].Counties
	for _, code := range slices.Sorted(maps.Keys(counties)) {
		one := farm.Farm{Number: "1", County: code}
		yield := 1.0
		for _, y := range counties[code].Yields {
			one.Bases = append(one.Bases, farm.Base{Commodity: y.Commodity, BaseAcres: 100, PaymentYield: &yield})
		}
		bases, err := found.Question.Sources().CommodityBases(one, cropYear)
		if err != nil {
			return err
		}
		for _, base := range bases {
			price, _ := drawn.Price(base.Commodity, cropYear, base.National.Terms.PriceDecimals)
			all := payoff.Of(year, farm.Operation{}, base, price)
			share = base.National.Terms.PaymentAcreShare
			if !known[base.Commodity] {
				known[base.Commodity] = true
				index, series = append(index, []string{"PLC", string(base.Commodity), ""}), appended(series, all.Of(farm.PLC).Rates[0].Scenarios)
			}
			index, series = append(index, []string{"ARC-CO", string(base.Commodity), code}), appended(series, all.Of(farm.ARCCO).Rates[0].Scenarios)
		}
	}
	if err := os.WriteFile(filepath.Join(out, "rates"), series, 0o644); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(out, "facts.csv"), []byte("payment_acre_share,"+program.Text(share, 4)+"\n"), 0o644); err != nil {
		return err
	}
	file, err := os.Create(filepath.Join(out, "index.csv"))
	if err != nil {
		return err
	}
	defer file.Close()
	return csv.NewWriter(file).WriteAll(index)
}

func appended(to []byte, series []float64) []byte {
	for _, x := range series {
		to, _ = binary.Append(to, binary.LittleEndian, x)
	}
	return to
}
