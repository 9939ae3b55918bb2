"""Pure calculations on floats in base units, one published relation per function."""
