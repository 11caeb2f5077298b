package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"net"
	"net/http"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"time"

	"evenpull/scenarios"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/show/live"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/sure"
	"evenpull/sim/study/trying"
	"evenpull/sim/vary"

	"github.com/spf13/cobra"
)

// tryFlags are the flags of try.
type tryFlags struct {
	flags
	stock  string
	port   int
	noOpen bool
}

func newTry(s streams) *cobra.Command {
	var f tryFlags
	c := &cobra.Command{
		Use:   "try [SCENARIO]",
		Short: "Try values by hand, on a page that answers as one drags",
		Long: `Try opens one page in the browser on which thickness, width, length and set-up of the
mainspring, and any other input, are moved by hand. Curve, coils and verdict follow at
once; words along each rule tell where to go before one moves.

This program serves the page, on this machine alone, at an address with a key that is made
anew each time, until Ctrl-C ends it; closing the page leaves it running. Nothing is
fetched from elsewhere. Nothing on disk changes but what "keep" on the page writes: a new
scenario file in the folder that the program was started in.

--stock puts the strips of a dealer's list on the rules, --bench the readings of a bench
book under the curve.`,
		Example: `  evenpull try
  evenpull try my-clock.toml --stock shop-drawer
  evenpull try three-trains --bench mixed-barrels --spring going=C
  evenpull try my-clock.toml --port 8123 --no-open`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runTry(c, s, &f, args) },
	}
	f.atBench.register(c)
	c.Flags().StringVar(&f.stock, "stock", "", "a stock list: a `file` (.toml or .csv), or a sample; a hyphen for one in TOML that another program hands over")
	c.Flags().IntVar(&f.port, "port", 0, "`number` of the port to serve at; 0: one that is free")
	c.Flags().BoolVar(&f.noOpen, "no-open", false, "print the address, and open no browser")
	completeWords(c, "stock", scenarios.StockNames()...)
	c.ValidArgsFunction = completeSamples
	return c
}

func runTry(c *cobra.Command, s streams, f *tryFlags, args []string) error {
	if f.port < 0 || f.port > 65535 {
		return usagef("--port %d: want 0 to 65535", f.port)
	}
	desk, err := f.desk(c, s, args)
	if err != nil {
		return err
	}
	defer debug.SetGCPercent(debug.SetGCPercent(liveGarbage))
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(f.port)))
	if err != nil {
		return fmt.Errorf("--port %d cannot be served: %w; want another, or 0 for one that is free", f.port, bareNet(err))
	}
	host, key := listener.Addr().String(), live.NewKey()
	server, err := desk.Server(host, key)
	if err != nil {
		return err
	}
	address := "http://" + host + "/?key=" + key
	fmt.Fprintln(s.out, address)
	s.say("serving until Ctrl-C; closing the page leaves this running")
	if !f.noOpen {
		if err := browse(address); err != nil {
			s.say("no browser could be opened: open the address above in one")
		}
	}
	return serve(c.Context(), server, listener)
}

// liveGarbage is how much garbage is let gather beside what is in use, in percent of it: an
// answer makes some megabytes, and somebody waits for it.
const liveGarbage = 400

// serve serves until the context ends, and then lets what is being answered be answered.
func serve(ctx context.Context, server *http.Server, listener net.Listener) error {
	server.BaseContext = func(net.Listener) context.Context { return ctx }
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	within, stop := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer stop()
	if server.Shutdown(within) != nil {
		server.Close()
	}
	if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// bareNet takes the name of the system call off an error.
func bareNet(err error) error {
	var op *net.OpError
	if errors.As(err, &op) {
		return op.Err
	}
	return err
}

// browse opens an address in the browser of this system.
func browse(address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	open := exec.Command(name, args...)
	if err := open.Start(); err != nil {
		return err
	}
	go func() { _ = open.Wait() }() // what becomes of the browser is its own business
	return nil
}

// desk reads what is to be tried.
func (f *tryFlags) desk(c *cobra.Command, s streams, args []string) (*live.Desk, error) {
	name := argument(args, sampleMark+scenarios.Default)
	if name == "-" {
		return nil, usagef("try takes a file or a sample, from which a trial can be kept; not standard input")
	}
	f.format = "text"
	f.bare, f.searches = true, true // trains that cannot be tried are left out
	sc, _, err := f.load(c, s, args)
	if err != nil {
		return nil, err
	}
	text, err := textOf(s, ofScenario, name)
	if err != nil {
		return nil, err
	}
	d := &live.Desk{Title: sc.Title, Note: sc.Note, File: filepath.Base(source(name)), Text: text, Keep: keepTrial, Origin: f.origin(s, nil)}
	for i := range sc.Trains {
		bench, err := trying.New(sc, i)
		if err != nil {
			s.say("the %s train cannot be tried: %s", sc.Trains[i].Name, vary.Why(err))
			continue
		}
		d.Trains = append(d.Trains, live.NewTrain(bench))
	}
	if len(d.Trains) == 0 {
		return nil, errors.New("there is no train to be tried: each has to have a mainspring and a cone")
	}
	f.lay(d)
	return d, f.offer(c, s, d, sc)
}

// keepTrial writes a new file into the folder that the program was started in.
func keepTrial(ctx context.Context, name, text string) error {
	if exists(name) {
		return fmt.Errorf("%s exists already, and nothing is written over: give another name", name)
	}
	return writeFile(ctx, name, false, func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
}

// lay puts the readings of the bench book under the curves: of the spring that is in a train,
// where it was read there.
func (f *tryFlags) lay(d *live.Desk) {
	if f.opened == nil {
		return
	}
	for _, t := range d.Trains {
		st := readings.Read(f.opened.Resolved(t.Found), t.Found.Place.GravityMS2)
		for i := range st.Springs {
			for _, taken := range f.taken {
				if sp := &st.Springs[i]; taken.Spring != nil && taken.Train == t.Name && sp.Train == t.Name && sp.Spring == taken.Spring.Label {
					t.Spring, t.Readings = sp.Spring, st.Readings(i, false)
				}
			}
		}
	}
}

// offerDraws tell how sure each strip of a list is, while somebody waits.
const offerDraws = 400

// offer puts the strips of the dealer's list on the rules; each train's are judged once the
// page asks.
func (f *tryFlags) offer(c *cobra.Command, s streams, d *live.Desk, sc *scenario.Scenario) error {
	if f.stock == "" {
		return nil
	}
	if f.stock == "-" && f.book == "-" {
		return usagef("standard input can be the bench file or the stock list, not both")
	}
	list, err := openStock(s, f.stock)
	if err != nil {
		return err
	}
	ctx := c.Context()
	for _, t := range d.Trains {
		t.Offer(list, func() (*choose.Study, error) {
			return choose.Run(ctx, sc, t.Number, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN(), Sure: &sure.Options{Draws: offerDraws, Seed: firstSeed}})
		})
	}
	return nil
}
