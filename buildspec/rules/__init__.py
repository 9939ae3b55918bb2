"""Engineering rules over a sized build, one file each; a rule module's docstring is its manual.

A rule module has `SEVERITY`, `SOURCES` (citation keys or words) and `check(sized) -> Iterator[Finding]`.
Its name is its file name with hyphens, and says what is wrong.
"""
