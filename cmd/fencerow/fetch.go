package main

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/file"
	"fencerow/io/read/book"
	"fencerow/io/read/quickstats"
	"fencerow/program/farm"
)

// keyVariable is where the user's own key is looked for.
const keyVariable = "NASS_API_KEY"

var stateDigits = regexp.MustCompile(`^\d\d$`)

func newCountyFetch() *cobra.Command {
	var q question
	var state, commodity, key, address string
	first := 1980
	c := &cobra.Command{
		Use:   "fetch --state 19 --commodity CORN",
		Short: "ask NASS Quick Stats for a State's county yields, with your own key",
		Long: `Asks NASS Quick Stats for the county yields of one State and crop, and imports the
answer. You need your own key (free, from NASS) in
` + keyVariable + ` or --key. The key goes to NASS and nowhere else. You can also download
the same files by hand and import them. Nothing is fetched unless you ask.
` + quickstats.Notice + "\n" + exitHelp,
		Example: "  " + keyVariable + "=... fencerow county fetch --state 19 --commodity CORN",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error {
				if key == "" {
					key = os.Getenv(keyVariable)
				}
				switch {
				case !stateDigits.MatchString(state):
					return usageError{fmt.Sprintf("--state is %q", state), "give the two digits of the State, such as 19"}
				case commodity == "":
					return usageError{"--commodity is missing", "give NASS's name of the crop: CORN, SOYBEANS, WHEAT, SORGHUM, BARLEY, OATS, ..."}
				case key == "":
					return usageError{"there is no key for NASS", "ask NASS for one (free) and set " + keyVariable + " or --key"}
				}
				ask := quickstats.Question{State: state, Commodity: strings.ToUpper(commodity), FirstYear: first}
				done, err := q.fetch(c, address, key, ask)
				if err != nil {
					return err
				}
				if q.json {
					return printJSON(c.OutOrStdout(), done)
				}
				fmt.Fprintln(c.OutOrStdout(), done)
				return nil
			})
		},
	}
	q.addBook(c)
	c.Flags().StringVar(&state, "state", "", "two digits of the State")
	c.Flags().StringVar(&commodity, "commodity", "", "the crop as NASS names it")
	c.Flags().StringVar(&key, "key", "", "your NASS key (default: "+keyVariable+")")
	c.Flags().IntVar(&first, "from", first, "first year asked for")
	c.Flags().StringVar(&address, "address", quickstats.Address, "address of the interface")
	return c
}

// fetch asks NASS and imports the answer through a file that is thrown away.
func (q *question) fetch(c *cobra.Command, address, key string, ask quickstats.Question) (done book.Imported, err error) {
	today, err := q.day()
	if err != nil {
		return done, err
	}
	b, err := disk.NeedBook(q.book, true)
	if err != nil {
		return done, err
	}
	defer b.Close()
	folder, err := os.MkdirTemp("", "fencerow")
	if err != nil {
		return done, err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, fmt.Sprintf("quickstats-%s-%s-%s.csv", ask.State, strings.ToLower(ask.Commodity), today.Format(time.DateOnly)))
	fmt.Fprintf(c.ErrOrStderr(), "fencerow: asking NASS for %s of State %s. %s\n", ask.Commodity, ask.State, quickstats.Notice)
	err = file.NewRun().Write(path, func(w io.Writer) error {
		return quickstats.Fetch(c.Context(), http.DefaultClient, address, key, ask, w)
	})
	if err != nil {
		return done, farm.Mistakes{{File: "NASS Quick Stats", Reason: err.Error(), Hint: "check key, State, crop and connection, or download the file by hand and use county import"}}
	}
	return b.Import(path, today, false)
}
