package site

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/read/county"
	"fencerow/io/read/countyname"
	"fencerow/io/read/farmtable"
	"fencerow/io/read/operation"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// mostUnpacked is how many bytes a .zip may hold.
const mostUnpacked = 4 << 20

var errZip = errors.New("this .zip cannot be read here: unpack it and open the files in it together")

// unpacked puts the files of a .zip, as keep packs them, in its place.
func unpacked(files []File) (all []File, err error) {
	for _, f := range files {
		if !strings.HasSuffix(strings.ToLower(f.Name), ".zip") {
			all = append(all, f)
			continue
		}
		z, err := zip.NewReader(bytes.NewReader(f.Text), int64(len(f.Text)))
		if err != nil || len(z.File) > mostFiles {
			return nil, errZip
		}
		left := int64(mostUnpacked)
		for _, inside := range z.File {
			text, err := read(inside, left)
			if err != nil {
				return nil, errZip
			}
			left -= int64(len(text))
			all = append(all, File{Name: inside.Name, Text: text})
		}
	}
	return all, nil
}

// read unpacks one file of at most so many bytes.
func read(f *zip.File, most int64) ([]byte, error) {
	open, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer open.Close()
	text, err := io.ReadAll(io.LimitReader(open, most+1))
	if err == nil && int64(len(text)) > most {
		err = errZip
	}
	return text, err
}

// asTyped turns opened files back into what would have been typed; ok is false where they
// hold more than the forms show, or a mistake.
func (s *Site) asTyped(files []File) (d draft, ok bool) {
	o, ok := s.operationOf(files[0])
	if !ok || len(o.CropYears) > 0 && !slices.Equal(o.CropYears, []crop.CropYear{s.Today.Year()}) {
		return d, false
	}
	d = draftOfOperation(o)
	for _, f := range files[1:] {
		switch {
		case f.Name == o.MarketFile:
			d.market = string(f.Text)
		case !slices.Contains(o.CountyFiles, f.Name) || !d.countyAsTyped(f):
			return d, false
		}
	}
	again, err := operation.Parse(operationName, []byte(d.operation().text.String()))
	again.CropYears, again.CountyFiles, again.MarketFile = o.CropYears, o.CountyFiles, o.MarketFile
	return d, err == nil && reflect.DeepEqual(again, o)
}

// operationOf reads an operation file, or the one operation of a table.
func (s *Site) operationOf(f File) (o farm.Operation, ok bool) {
	if !farmtable.IsTable(f.Name) {
		o, err := operation.Parse(f.Name, f.Text)
		return o, err == nil
	}
	a, err := s.ask(draft{files: []File{f}})
	return a.Operation, err == nil && len(a.faults) == 0
}

// draftOfOperation takes over what the forms have fields for.
func draftOfOperation(o farm.Operation) draft {
	d := draft{known: map[string]string{}}
	var ids []string
	for _, p := range o.Producers {
		if p.ID != you {
			ids = append(ids, p.ID)
			d.others = append(d.others, typedPerson{name: p.ID, kind: string(p.Kind)})
		}
	}
	for i := range o.Farms {
		f := &o.Farms[i]
		one := typedFarm{number: f.Number, county: countyname.Name(f.County), shares: make([]string, len(ids))}
		if every := f.Shares.Every; every != nil {
			one.share = hundredths((*every)[you])
			for j, id := range ids {
				if share, has := (*every)[id]; has {
					one.shares[j] = hundredths(share)
				}
			}
		}
		for j, b := range f.Bases {
			line := typedBase{crop: string(b.Commodity), acres: plain(b.BaseAcres), elected: string(f.Record[b.Commodity])}
			if b.PaymentYield != nil {
				line.yield = plain(*b.PaymentYield)
			}
			if b.IrrigatedShare != nil {
				line.irrigated = hundredths(*b.IrrigatedShare)
			} else {
				d.known[fmt.Sprintf("s.asked.f%d.b%d.irrigated", i+1, j+1)] = "yes" // before it was kept
			}
			one.bases = append(one.bases, line)
		}
		d.farms = append(d.farms, one)
	}
	return d
}

// plain writes a number as it is typed; hundredths a share as a percentage.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func hundredths(share float64) string { return strconv.FormatFloat(100*share, 'g', 10, 64) }

// countyAsTyped takes over the yields of a county file as countyFile writes them.
func (d *draft) countyAsTyped(f File) bool {
	c, err := county.Parse(f.Name, f.Text)
	if err != nil {
		return false
	}
	for _, y := range c.Yields {
		for _, year := range slices.Sorted(maps.Keys(y.Outlook)) {
			o := y.Outlook[year]
			if o.Yield == nil {
				return false
			}
			name := yieldField(c.Code, y.Commodity, y.Practice, year)
			d.known[name], d.known["s."+strings.TrimPrefix(name, "y.")] = plain(*o.Yield), o.KnownFrom
		}
	}
	again, err := county.Parse(f.Name, []byte(d.countyFile(c.Code).text.String()))
	return err == nil && reflect.DeepEqual(again, c) && f.Name == countyFileName(c.Code)
}
