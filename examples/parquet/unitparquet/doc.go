// Package unitparquet computes over Parquet files whose columns state their units
// in their metadata, one column per input, and adds the results as columns with
// units.
//
// A column's unit is the value of the key "unit" in its field metadata, as Arrow
// keeps it in a Parquet file and as other languages' Arrow libraries read and
// write it. Package batch decides what a column may be called, which unit it may
// have and what is said of a row that can't be computed. The values are those of
// millmaths batch --full on the same rows.
package unitparquet
