package paperprop

const kelvinOffset = 273.15

// Celsius returns the temperature x °C.
func Celsius(x float64) Temperature { return Temperature(x) }

// Kelvin returns the temperature x K.
func Kelvin(x float64) Temperature { return Temperature(kinds[kindTemperature].unit(1).From(x)) }

// Fahrenheit returns the temperature x °F.
func Fahrenheit(x float64) Temperature { return Temperature(kinds[kindTemperature].unit(2).From(x)) }

// Celsius returns x in °C.
func (x Temperature) Celsius() float64 { return float64(x) }

// Kelvin returns x in K.
func (x Temperature) Kelvin() float64 { return kinds[kindTemperature].unit(1).To(float64(x)) }

// Fahrenheit returns x in °F.
func (x Temperature) Fahrenheit() float64 { return kinds[kindTemperature].unit(2).To(float64(x)) }
