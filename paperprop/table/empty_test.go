package table_test

import (
	"testing"

	"millmaths.example/paperprop/table"
)

// A block that no reader filled holds no record.
func TestEmptyBlock(t *testing.T) {
	if new(table.Block).Record(new(table.Record)) {
		t.Error("an empty block has a record")
	}
}
