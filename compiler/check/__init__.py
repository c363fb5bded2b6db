"""Checks: the experienced colleague who looks over the job before anything is cut."""
