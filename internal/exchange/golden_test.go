package exchange

import "flag"

// update is shared by all golden tests of this package.
var update = flag.Bool("update", false, "rewrite the expected output in testdata, to be read in the diff")
