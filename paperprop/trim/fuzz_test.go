package trim_test

import (
	"context"
	"strings"
	"testing"

	"millmaths.example/paperprop/trim"
)

// Whatever a file says, it is refused by its name, or is a job; and a plan of that
// cuts of each order what it may.
func FuzzReadFile(f *testing.F) {
	for _, text := range []string{
		"[[deckle]]\nwidth = \"3300 mm\"\nedge = \"20 mm\"\n[[order]]\nwidth = \"1080 mm\"\nreels = 4\n[[order]]\nwidth = \"42 in\"\nreels = 3\nunder-run = \"10 %\"\n",
		"orders = \"list.csv\"\nlimit = \"20s\"\n[[filler]]\nwidth = \"500 mm\"\n[[deckle]]\nwidth = \"3 m\"\nsets = 2\n",
		"partly = true\n[slitter]\nmost-reels = 5\n[[deckle]]\nwidth = \"1 mm\"\n[[order]]\nwidth = \"2 mm\"\nreels = 1\n",
	} {
		f.Add(text)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel() // the search is not what is tried here
	f.Fuzz(func(t *testing.T, text string) {
		file, err := trim.ReadFile("job.toml", strings.NewReader(text))
		if err != nil {
			if !strings.HasPrefix(err.Error(), "job.toml") {
				t.Errorf("%q: error %q does not name the file", text, err)
			}
			return
		}
		reels := 0
		for _, o := range file.Job.Orders {
			reels += min(max(o.Most, 0), 1000)
		}
		if reels > 100 || len(file.Job.Orders) > 5 || len(file.Job.Fillers) > 3 {
			return
		}
		p, err := file.Job.Plan(ctx)
		if err != nil {
			return
		}
		for i, m := range p.Orders {
			if o := file.Job.Orders[i]; m.Reels > o.Most || m.Reels < o.Least && !file.Job.Partly {
				t.Errorf("%q: %d reels of an order of %d to %d", text, m.Reels, o.Least, o.Most)
			}
		}
	})
}
