package table

import (
	"fmt"
	"regexp"
	"strings"

	"fencerow/program/crop"
)

// BaseRow is the base acres of one commodity in one county.
type BaseRow struct {
	Line        int
	ProgramYear crop.CropYear // 0 where the table does not say
	Code        string        // five digits; "" where the table has names only
	State       string
	County      string
	Commodity   crop.Commodity
	BaseAcres   crop.Acres
}

// baseHeadings are the two layouts of FSA's county base table: with codes (2014,
// 2015) and with names only (2021 on).
var baseHeadings = []map[string]string{
	{"state": "State", "county": "County", "statecode": "State Code", "countycode": "County Code", "crop": "Crop", "acres": "Base Acres"},
	{"year": "Program Year", "state": "Admin State", "county": "Admin County", "crop": "Crop Base Name", "acres": "Crop Base Acres"},
}

// baseCrops are five-letter and other names of this table alone.
var baseCrops = map[string]crop.Commodity{
	"SEED COTTON-UPLAND": crop.SeedCotton, "BARLY": crop.Barley, "PNUTS": crop.Peanuts, "SNFLR": crop.SunflowerSeed, "SUNFLR": crop.SunflowerSeed, "SOYBN": crop.Soybeans, "SORGH": crop.GrainSorghum, "CANOL": crop.Canola,
	"LENTL": crop.Lentils, "PEAS": crop.DryPeas, "SESME": crop.SesameSeed, "MUSTD": crop.MustardSeed, "FLAX": crop.Flaxseed, "SAFFL": crop.Safflower, "RAPES": crop.Rapeseed, "CRAMB": crop.Crambe,
}

var fourDigits = regexp.MustCompile(`^\d{4}$`)

// ReadBase reads a workbook of county base acres. It goes through every sheet; a
// line without county or with an unknown crop is noted, totals are passed over.
// ok is false where no sheet has the headings.
func ReadBase(path string) (rows []BaseRow, notes []Note, ok bool, err error) {
	book, err := openWorkbook(path)
	if err != nil {
		return nil, nil, false, err
	}
	defer book.Close()
	for _, name := range book.GetSheetList() {
		lines, err := book.Rows(name)
		if err != nil {
			return nil, nil, false, refuse(path, name, "the sheet cannot be read: "+err.Error(), hintDownload)
		}
		var columns map[string]int
		for line := 1; lines.Next() && line <= mostLines; line++ {
			cells, err := lines.Columns()
			if err != nil {
				lines.Close()
				return nil, nil, false, refuse(path, name, fmt.Sprintf("line %d cannot be read: %v", line, err), hintDownload)
			}
			switch {
			case columns == nil && line > headingWithin:
			case columns == nil:
				columns = baseColumns(cells)
			default:
				row, fault := baseRow(line, cells, columns)
				if fault != "" {
					notes = append(notes, Note{line, strings.Join(cells, " "), fault})
				} else if row.BaseAcres > 0 {
					rows = append(rows, row)
				}
			}
		}
		lines.Close()
		ok = ok || columns != nil
	}
	return rows, notes, ok, nil
}

// baseColumns finds the columns by their headings; nil where they are not there.
func baseColumns(cells []string) map[string]int {
	for _, layout := range baseHeadings {
		found := map[string]int{}
		for what, heading := range layout {
			for i, cell := range cells {
				if strings.EqualFold(strings.Join(strings.Fields(cell), " "), heading) {
					found[what] = i
				}
			}
		}
		if len(found) == len(layout) {
			return found
		}
	}
	return nil
}

// baseRow reads one line; a line without county and crop is a total.
func baseRow(line int, cells []string, columns map[string]int) (r BaseRow, fault string) {
	cell := func(what string) string {
		i, has := columns[what]
		if !has || i >= len(cells) {
			return ""
		}
		return strings.Join(strings.Fields(cells[i]), " ")
	}
	if cell("county") == "" || cell("crop") == "" {
		return r, ""
	}
	r = BaseRow{Line: line, State: cell("state"), County: cell("county")}
	if year := cell("year"); year != "" {
		if !fourDigits.MatchString(year) {
			return r, fmt.Sprintf("program year is %q", year)
		}
		fmt.Sscan(year, &r.ProgramYear)
	}
	if s, c := cell("statecode"), cell("countycode"); s != "" && c != "" {
		r.Code = fmt.Sprintf("%02s%03s", s, c)
	}
	name := strings.ToUpper(cell("crop"))
	if strings.Contains(name, "GENERIC") || strings.Contains(name, "UNASSIGNED") {
		return r, "" // belongs to no commodity
	}
	c, known := crop.ParseCommodity(cell("crop"))
	if !known {
		if c, known = baseCrops[strings.TrimSuffix(name, " - BLANK")]; !known {
			return r, "unknown crop " + cell("crop")
		}
	}
	r.Commodity = c
	acres, err := figure(cell("acres"), 2)
	if err != nil || acres == nil {
		return r, "base acres are " + cell("acres")
	}
	r.BaseAcres = *acres
	return r, ""
}
