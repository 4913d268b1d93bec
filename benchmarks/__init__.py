"""Timings and quality, measured against other ways to do the same job."""
