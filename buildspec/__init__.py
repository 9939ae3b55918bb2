"""A declarative build-spec compiler that emits install documentation."""

__version__ = "0.1.0"
