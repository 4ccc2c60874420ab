package paperprop

const kelvinOffset = 273.15

func kelvin() Unit     { return kinds[kindTemperature].unit(1) }
func fahrenheit() Unit { return kinds[kindTemperature].unit(2) }

// Celsius returns the temperature x °C.
func Celsius(x float64) Temperature { return Temperature(x) }

// Kelvin returns the temperature x K.
func Kelvin(x float64) Temperature { return Temperature(kelvin().From(x)) }

// Fahrenheit returns the temperature x °F.
func Fahrenheit(x float64) Temperature { return Temperature(fahrenheit().From(x)) }

// Celsius returns x in °C.
func (x Temperature) Celsius() float64 { return float64(x) }

// Kelvin returns x in K.
func (x Temperature) Kelvin() float64 { return kelvin().To(float64(x)) }

// Fahrenheit returns x in °F.
func (x Temperature) Fahrenheit() float64 { return fahrenheit().To(float64(x)) }
