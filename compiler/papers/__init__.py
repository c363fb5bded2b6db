"""Back ends: pure functions from the Job to lists, drawings and pages."""
