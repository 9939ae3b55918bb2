"""Answers at the bench without a whole spec: one circuit by its figures, or one reserve of a spec."""
