package machine

import (
	"encoding/csv"
	"io"
	"strconv"

	"fullfree/linkage"
	"fullfree/solve"
)

// sweepSchema is the name and version of a table of positions.
const sweepSchema = "fullfree.sweep/1"

type sweepTableJSON struct {
	Schema  string       `json:"schema"`
	Columns []columnJSON `json:"columns"`
	Rows    [][]float64  `json:"rows"`
}

type columnJSON struct {
	Name string       `json:"name"`
	Unit linkage.Unit `json:"unit"`
}

// SweepJSON writes a table of positions for machines, at full precision. The
// error is the writer's.
func SweepJSON(w io.Writer, columns []solve.Column, rows [][]float64) error {
	out := sweepTableJSON{Schema: sweepSchema, Columns: []columnJSON{}, Rows: rows}
	if rows == nil {
		out.Rows = [][]float64{}
	}
	for _, c := range columns {
		out.Columns = append(out.Columns, columnJSON(c))
	}
	return writeJSON(w, out)
}

// SweepCSV writes a table of positions as comma-separated values, at full
// precision, under one line of headings such as "left-pedal [deg]". The error
// is the writer's.
func SweepCSV(w io.Writer, columns []solve.Column, rows [][]float64) error {
	out := csv.NewWriter(w)
	cells := make([]string, len(columns))
	for i, c := range columns {
		cells[i] = c.Name + " [" + string(c.Unit) + "]"
	}
	if err := out.Write(cells); err != nil {
		return err
	}
	for _, row := range rows {
		for i, v := range row {
			cells[i] = strconv.FormatFloat(v, 'g', -1, 64)
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
