// Package unitparquet computes over Parquet files whose columns say their
// units in their metadata, a column an input, and writes the results as columns
// with units beside them.
//
// A column's unit is the value of the key "unit" in its field metadata, as Arrow
// keeps it in a Parquet file and as other languages' Arrow libraries read and
// write it. What a column may be called, which unit it may have, what is said of
// a row that can't be computed: all that is batch's, and the values are those of
// millmaths batch --full on the same rows.
package unitparquet
