package odds

// Prepare makes the tables that most runs need, so that they can be made while files
// are read. It changes no figure; without it each is made when first used.
func Prepare() {
	sobolTable()
	mirrors()
	quantileTable()
	parameters()
	weibullCurve()
}
