"""What can be computed from an inspection: one module a measure."""
