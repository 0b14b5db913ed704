package book

import "fencerow/program/crop"

// Listed is one county of the book in a line.
type Listed struct {
	Code        string           `json:"code"`
	Name        string           `json:"name"`
	Commodities []crop.Commodity `json:"commodities"`
	First       crop.CropYear    `json:"first_year"` // of any yield
	Last        crop.CropYear    `json:"last_year"`
	Table       crop.CropYear    `json:"newest_table"` // program year of the newest county table; 0 without
}

// List returns the counties whose code begins with prefix, by code.
func (b *Book) List(prefix string) ([]Listed, error) {
	rows, err := b.db.Query(`SELECT s.county, COALESCE(c.name, ''), s.commodity, MIN(v.crop_year), MAX(v.crop_year),
			MAX(CASE WHEN s.kind = 'benchmark_yield' THEN v.crop_year ELSE 0 END)
		FROM series s JOIN value v ON v.series = s.id LEFT JOIN county c ON c.code = s.county
		WHERE s.county >= ? AND s.county < ? GROUP BY s.county, s.commodity ORDER BY s.county, s.commodity`, prefix, prefix+"~")
	if err != nil {
		return nil, b.told(err)
	}
	defer rows.Close()
	all := []Listed{}
	for rows.Next() {
		var one Listed
		var c crop.Commodity
		if err := rows.Scan(&one.Code, &one.Name, &c, &one.First, &one.Last, &one.Table); err != nil {
			return nil, b.told(err)
		}
		if n := len(all); n > 0 && all[n-1].Code == one.Code {
			last := &all[n-1]
			last.Commodities = append(last.Commodities, c)
			last.First, last.Last, last.Table = min(last.First, one.First), max(last.Last, one.Last), max(last.Table, one.Table)
			continue
		}
		one.Commodities = []crop.Commodity{c}
		all = append(all, one)
	}
	return all, b.told(rows.Err())
}

// File is one imported file.
type File struct {
	Name     string `json:"name"`
	SHA256   string `json:"sha256"`
	Agency   string `json:"agency"`
	Layout   string `json:"layout"`
	Subject  string `json:"subject"`
	Edition  string `json:"edition"`
	Imported string `json:"imported"`
	Figures  int    `json:"figures"`
	Replaced bool   `json:"replaced"` // a newer edition took its place
}

// Files returns every file imported, in the order of the imports.
func (b *Book) Files() ([]File, error) {
	rows, err := b.db.Query("SELECT name, sha256, agency, layout, subject, edition, imported, figures, replaced_by IS NOT NULL FROM file ORDER BY id")
	if err != nil {
		return nil, b.told(err)
	}
	defer rows.Close()
	all := []File{}
	for rows.Next() {
		var f File
		if err := rows.Scan(&f.Name, &f.SHA256, &f.Agency, &f.Layout, &f.Subject, &f.Edition, &f.Imported, &f.Figures, &f.Replaced); err != nil {
			return nil, b.told(err)
		}
		all = append(all, f)
	}
	return all, b.told(rows.Err())
}
