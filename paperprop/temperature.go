package paperprop

const kelvinOffset = 273.15

// Celsius returns the temperature of x °C.
func Celsius(x float64) Temperature { return Temperature(x) }

// Kelvin returns the temperature of x K.
func Kelvin(x float64) Temperature { return Temperature(kinds[kindTemperature].unit(1).From(x)) }

// Fahrenheit returns the temperature of x °F.
func Fahrenheit(x float64) Temperature { return Temperature(kinds[kindTemperature].unit(2).From(x)) }

// Celsius returns the number of x in °C.
func (x Temperature) Celsius() float64 { return float64(x) }

// Kelvin returns the number of x in K.
func (x Temperature) Kelvin() float64 { return kinds[kindTemperature].unit(1).To(float64(x)) }

// Fahrenheit returns the number of x in °F.
func (x Temperature) Fahrenheit() float64 { return kinds[kindTemperature].unit(2).To(float64(x)) }
