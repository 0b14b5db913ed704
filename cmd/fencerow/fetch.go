package main

import "github.com/spf13/cobra"

func newCountyFetch() *cobra.Command { return &cobra.Command{Use: "fetch"} }
