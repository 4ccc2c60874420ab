package result

// A Running summarises any number of readings one by one, without keeping them. The
// zero Running is ready to use. Parts of a series, each with its own Running, are
// combined by Merge.
type Running struct {
	count            int
	total            sum
	squares          float64 // of the distances from the mean
	minimum, maximum float64
	refusedAt        int // position of the first reading that cannot be used, from 1
	refused          float64
}

// Add adds the reading x. If [Summarise] would refuse x, Summary returns the error.
func (r *Running) Add(x float64) {
	if !usable(x) {
		r.Merge(Running{count: 1, refusedAt: 1, refused: x})
		return
	}
	if r.count == 0 {
		*r = Running{count: 1, total: sum{high: x}, minimum: x, maximum: x}
		return
	}
	before := r.mean()
	r.count++
	r.total.add(x)
	r.squares += (x - before) * (x - r.mean()) // Welford's update
	r.minimum, r.maximum = min(r.minimum, x), max(r.maximum, x)
}

// Merge adds the readings of o, as if they had followed those of r.
func (r *Running) Merge(o Running) {
	if r.count == 0 || o.count == 0 {
		if r.count == 0 {
			*r = o
		}
		return
	}
	if r.refusedAt == 0 && o.refusedAt > 0 {
		r.refusedAt, r.refused = r.count+o.refusedAt, o.refused
	}
	n, m := float64(r.count), float64(o.count)
	apart := o.mean() - r.mean()
	r.squares += o.squares + apart*apart*(n/(n+m)*m) // Chan, Golub and LeVeque
	r.count += o.count
	r.total.add(o.total.high)
	r.total.low += o.total.low
	r.minimum, r.maximum = min(r.minimum, o.minimum), max(r.maximum, o.maximum)
}

// Summary returns the summary of the readings so far, without the median and the
// autocorrelation, which need all readings at once. Its errors are those of
// [Summarise].
func (r *Running) Summary(confidence float64) (Summary, error) {
	if r.refusedAt > 0 {
		return Summary{}, refuse(r.refusedAt, r.refused)
	}
	mean := r.total.over(float64(r.count)).value()
	return summarise(r.count, mean, r.minimum, r.maximum, r.squares, confidence)
}

func (r *Running) mean() float64 { return r.total.value() / float64(r.count) }
