package paperprop

import (
	"database/sql/driver"
	"fmt"
)

// scan reads what a database driver delivers: a number in the canonical unit, or text
// with a unit.
func (k *Kind) scan(src any, value *float64) error {
	switch v := src.(type) {
	case float64:
		if err := k.finite(v); err != nil {
			return err
		}
		*value = v
	case int64:
		*value = float64(v)
	case string:
		return k.unmarshal([]byte(v), value)
	case []byte:
		return k.unmarshal(v, value)
	case nil:
		return fmt.Errorf("%s is NULL, want a number in %s or a text with its unit", k.words, k.Canonical())
	default:
		return fmt.Errorf("%s is of type %T, want a number in %s or a text with its unit", k.words, src, k.Canonical())
	}
	return nil
}

func (k *Kind) value(value float64) (driver.Value, error) {
	if err := k.finite(value); err != nil {
		return nil, err
	}
	return value, nil
}
