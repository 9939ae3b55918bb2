"""The positive side of a build as a graph: what can push current where, in which state."""
