package book

import (
	"fmt"
	"strings"
	"time"

	"fencerow/io/read/market"
	"fencerow/io/read/table"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// wasde imports the season-average prices of one WASDE report.
func (im *importing) wasde(report market.WASDE, err error) error {
	if err != nil {
		return farm.Mistakes{{File: im.path, Reason: "the WASDE file cannot be read: " + err.Error(), Hint: "use the report's CSV as downloaded"}}
	}
	im.Agency, im.Layout, im.Subject, im.Edition = "WASDE", "report CSV", "national prices", report.Date.Format(time.DateOnly)
	noteAll(im, report.Notes)
	return putPrices(im, report.Prices)
}

// otherWorkbook imports base acres or prices, or refuses the workbook by name.
func (im *importing) otherWorkbook() error {
	rows, notes, isBase, err := table.ReadBase(im.path)
	if err != nil {
		return err
	}
	if isBase {
		noteAll(im, notes)
		return im.base(rows)
	}
	t, err := table.ReadPrices(im.path)
	if err != nil {
		return err
	}
	noteAll(im, t.Notes)
	im.Layout, im.Subject, im.Edition = fmt.Sprintf("price table %d", t.Number), "national prices", t.AsOf.Format(time.DateOnly)
	return putPrices(im, t.Prices)
}

// putPrices enters the file and its national prices.
func putPrices[P table.TablePrice | market.WASDEPrice](im *importing, prices []P) error {
	if _, err := im.begin(); err != nil {
		return err
	}
	for _, p := range prices {
		if err := im.price(table.TablePrice(p)); err != nil {
			return err
		}
	}
	return im.counted()
}

// price puts in one national price. Of final prices the agency's first stays; of
// projections the newest.
func (im *importing) price(p table.TablePrice) error {
	if fault := plausiblePrice(p); fault != nil {
		im.note(p.Line, fault.Reason, fmt.Sprintf("%s, crop year %d", p.Commodity.Name(), p.CropYear))
		return nil
	}
	kind, wins := im.Agency+" "+projectedPrice, "<="
	if p.Final {
		kind, wins = im.Agency+" "+finalPrice, ">"
	}
	return im.putPrice(p.Commodity, p.CropYear, kind, p.Price, p.Line, wins)
}

// plausiblePrice refuses a price, or its crop year, that cannot be.
func plausiblePrice(p table.TablePrice) *farm.Fault {
	if fault := farm.HistoryYears().Check("the crop year of the price", p.CropYear); fault != nil {
		return fault
	}
	return farm.CheckPrice("the price", p.Commodity, p.Price)
}

// putPrice puts in one figure of a price, in place of one of the same kind whose edition
// compares with this one as wins says.
func (im *importing) putPrice(c crop.Commodity, y crop.CropYear, kind string, number float64, line int, wins string) error {
	im.Figures++
	_, err := im.tx.Exec(`INSERT INTO price (commodity, crop_year, kind, number, file, line) VALUES (?,?,?,?,?,?)
		ON CONFLICT (commodity, crop_year, kind) DO UPDATE SET number = excluded.number, file = excluded.file, line = excluded.line
		WHERE (SELECT edition FROM file f WHERE f.id = price.file) `+wins+` ?`, string(c), y, kind, number, im.id, line, im.Edition)
	return err
}

// Kinds of a price, behind the agency's name.
const finalPrice, projectedPrice = "final", "projected"

// counted writes down how many figures came.
func (im *importing) counted() error {
	_, err := im.tx.Exec("UPDATE file SET figures = ? WHERE id = ?", im.Figures, im.id)
	return err
}

// base puts in base acres. A table that has names only is matched with the
// counties that the book knows by State and name.
func (im *importing) base(rows []table.BaseRow) error {
	im.Layout, im.Subject, im.Edition = "county base acres", "base acres", im.today.Format(time.DateOnly)
	if _, err := im.begin(); err != nil {
		return err
	}
	codes, err := im.codesByName()
	if err != nil {
		return err
	}
	w, err := newWriter(im.tx, im.id, im.Edition)
	if err != nil {
		return err
	}
	for _, r := range rows {
		if fault := farm.HistoryYears().Check("the program year", r.ProgramYear); r.ProgramYear != 0 && fault != nil {
			im.note(r.Line, fault.Reason, r.State+", "+r.County)
			continue
		}
		code := r.Code
		if code == "" {
			if code = codes[countyName(crop.StateCode(r.State), r.County)]; code == "" {
				im.note(r.Line, "no county of that name is in the book", r.State+", "+r.County)
				continue
			}
		}
		if err := w.add(value{seriesKey: seriesKey{code, im.Agency, r.Commodity, farm.AllPractices, kindBase}, cropYear: r.ProgramYear, number: r.BaseAcres, line: r.Line}); err != nil {
			return err
		}
	}
	return im.end(w)
}

// codesByName returns the codes of the counties in the book by State and name.
func (im *importing) codesByName() (map[string]string, error) {
	rows, err := im.tx.Query("SELECT code, name FROM county")
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	codes := map[string]string{}
	for rows.Next() {
		var code, name string
		if err := rows.Scan(&code, &name); err != nil {
			return nil, err
		}
		const state = 2 // digits
		codes[countyName(code[:min(state, len(code))], name)] = code
	}
	return codes, rows.Err()
}

// countyName is a county's State and name as they are compared: names change
// their spelling from table to table ("St. Clair", "Dekalb").
func countyName(state, name string) string {
	return state + " " + strings.ToUpper(strings.NewReplacer(" ", "", ".", "", "'", "", "_", "", "-", "").Replace(name))
}
