package parquet

import (
	"encoding/binary"
	"fmt"
	"io"
	"math/big"
	"os"
	"strconv"
	"strings"

	"github.com/parquet-go/parquet-go"

	"fencerow/io/read/lines"
)

// parquetBatch is how many rows are taken from a parquet file at once.
const parquetBatch = 256

// mostDecimals is the highest scale of a decimal in a parquet file.
const mostDecimals = 38

// parquetLines is a parquet file. Its first line is made of the names of its
// columns; those with lists or fields inside have a name no column of ours has.
type parquetLines struct {
	path   string
	file   *os.File
	groups []parquet.RowGroup
	rows   parquet.Rows // of the group being read; nil between groups
	over   bool         // rows has no more than what is ready
	names  []string     // by leaf
	scales []int        // decimals of a leaf of whole numbers that stand for decimals
	batch  []parquet.Row
	ready  []parquet.Row // read and not yet returned
	number int
	headed bool
}

// Open opens a parquet file. What cannot be read is farm.Mistakes.
func Open(path string) (lines.Lines, error) {
	found, err := open(path)
	if err != nil {
		return nil, err
	}
	return found, nil
}

func open(path string) (found *parquetLines, err error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, lines.Unreadable(path, err)
	}
	defer func() {
		if fault := recover(); fault != nil { // the library panics on some damaged files
			err = damagedParquet(path, fault)
		}
		if err != nil {
			file.Close()
		}
	}()
	info, err := file.Stat()
	if err != nil {
		return nil, lines.Unreadable(path, err)
	}
	if info.IsDir() {
		return nil, lines.Refuse(path, "", "is a folder", "name a file")
	}
	if err := checkFooter(path, file, info.Size()); err != nil {
		return nil, err
	}
	opened, err := parquet.OpenFile(file, info.Size(), parquet.SkipPageIndex(true), parquet.SkipBloomFilters(true))
	if err != nil {
		return nil, damagedParquet(path, err)
	}
	if err := bounded(path, opened, info.Size()); err != nil {
		return nil, err
	}
	found = &parquetLines{path: path, file: file, groups: opened.RowGroups(), batch: make([]parquet.Row, parquetBatch)}
	for _, leaf := range opened.Schema().Columns() {
		found.addLeaf(opened.Schema(), leaf)
	}
	return found, nil
}

// mostColumn is how many bytes one column of a group of rows may unpack to, mostRows how many
// rows a byte of the file may stand for, and fewRows how many any file may have: judgements.
// A table of the nation's farms has columns of some 30 MB and a row in two bytes.
const mostColumn, mostRows, fewRows = 256 << 20, 100, 1_000_000

// bounded refuses a file that says of itself that it unpacks to more than a table has.
func bounded(path string, opened *parquet.File, size int64) error {
	const hint = "write it again with smaller groups of rows, or save the table as .csv"
	if rows := opened.NumRows(); rows < 0 || rows > fewRows+mostRows*size {
		return lines.Refuse(path, "", fmt.Sprintf("the parquet file says that it has %d rows in %d bytes", rows, size), hint)
	}
	for _, group := range opened.Metadata().RowGroups {
		for _, column := range group.Columns {
			if column.MetaData.TotalUncompressedSize > mostColumn {
				return lines.Refuse(path, strings.Join(column.MetaData.PathInSchema, "."), fmt.Sprintf("a column of the parquet file unpacks to more than %d MB", mostColumn>>20), hint)
			}
		}
	}
	return nil
}

// checkFooter refuses a file whose last bytes claim a footer longer than the file: the library
// would ask for as much memory, up to 4 GB, before it looks. Other damage is left to the library.
func checkFooter(path string, file io.ReaderAt, size int64) error {
	const mark, end = 4, 8 // the file begins with PAR1; it ends with the length of the footer and PAR1
	last := make([]byte, end)
	if _, err := file.ReadAt(last, size-end); err != nil {
		return nil
	}
	if footer := int64(binary.LittleEndian.Uint32(last)); footer > size-end-mark {
		return damagedParquet(path, fmt.Sprintf("its last bytes say that %d bytes describe it, and it has %d in all", footer, size))
	}
	return nil
}

// damagedParquet is the mistake of a file that breaks off or is of another kind.
func damagedParquet(path string, fault any) error {
	return lines.Refuse(path, "", fmt.Sprintf("the parquet file cannot be read: %v", fault), "write the file again, or save the table as .csv")
}

func (l *parquetLines) addLeaf(schema *parquet.Schema, path []string) {
	scale, name := 0, path[0]
	if len(path) > 1 {
		name = "inside " + strings.Join(path, " / ")
	}
	if leaf, ok := schema.Lookup(path...); ok {
		if kind := leaf.Node.Type().LogicalType(); kind != nil {
			if decimal := kind.Decimal; decimal != nil {
				scale = min(int(decimal.Scale), mostDecimals)
			}
		}
		if leaf.MaxRepetitionLevel > 0 {
			name += " / list"
		}
	}
	l.names, l.scales = append(l.names, name), append(l.scales, scale)
}

// Next returns the next line, as lines.Lines has it.
func (l *parquetLines) Next() (next lines.Line, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = damagedParquet(l.path, fault)
		}
	}()
	if !l.headed {
		l.headed = true
		return lines.Line{Cells: l.names}, nil
	}
	for len(l.ready) == 0 {
		if err := l.fill(); err != nil {
			return lines.Line{}, err
		}
	}
	row := l.ready[0]
	l.ready = l.ready[1:]
	l.number++
	cells := make([]string, len(l.names))
	for _, value := range row {
		if at := value.Column(); at >= 0 && at < len(cells) && cells[at] == "" {
			cells[at] = l.text(value, at)
		}
	}
	return lines.Line{Number: l.number, Cells: cells}, nil
}

// fill reads the next rows; io.EOF after the last group.
func (l *parquetLines) fill() error {
	if l.over { // only now: what was ready lies in memory of the group
		l.rows.Close()
		l.rows, l.over = nil, false
	}
	if l.rows == nil {
		if len(l.groups) == 0 {
			return io.EOF
		}
		l.rows, l.groups = l.groups[0].Rows(), l.groups[1:]
	}
	n, err := l.rows.ReadRows(l.batch)
	l.ready = l.batch[:n]
	if err == io.EOF || err == nil && n == 0 {
		l.over, err = true, nil
	}
	if err != nil {
		return damagedParquet(l.path, err)
	}
	return nil
}

// text writes a value as it would stand in a text file.
func (l *parquetLines) text(value parquet.Value, leaf int) string {
	scale := l.scales[leaf]
	switch {
	case value.IsNull():
		return ""
	case value.Kind() == parquet.Boolean:
		return strconv.FormatBool(value.Boolean())
	case value.Kind() == parquet.Int32:
		return withDecimals(big.NewInt(int64(value.Int32())), scale)
	case value.Kind() == parquet.Int64:
		return withDecimals(big.NewInt(value.Int64()), scale)
	case value.Kind() == parquet.Float:
		return strconv.FormatFloat(float64(value.Float()), 'f', -1, 32)
	case value.Kind() == parquet.Double:
		return strconv.FormatFloat(value.Double(), 'f', -1, 64)
	case value.Kind() == parquet.Int96:
		return value.String()
	case scale > 0:
		return withDecimals(signed(value.ByteArray()), scale)
	}
	return string(value.ByteArray())
}

// signed reads a whole number stored as two's complement, highest byte first.
func signed(bytes []byte) *big.Int {
	number := new(big.Int).SetBytes(bytes)
	if len(bytes) > 0 && bytes[0] >= 0x80 {
		number.Sub(number, new(big.Int).Lsh(big.NewInt(1), uint(8*len(bytes))))
	}
	return number
}

// withDecimals writes a whole number of hundredths, thousandths and so on.
func withDecimals(number *big.Int, scale int) string {
	if scale <= 0 {
		return number.String()
	}
	sign, digits := "", number.String()
	if number.Sign() < 0 {
		sign, digits = "-", digits[1:]
	}
	if missing := scale + 1 - len(digits); missing > 0 {
		digits = strings.Repeat("0", missing) + digits
	}
	return sign + digits[:len(digits)-scale] + "." + digits[len(digits)-scale:]
}

// Close closes the file.
func (l *parquetLines) Close() error {
	if l.rows != nil {
		l.rows.Close()
	}
	return l.file.Close()
}
