"""The job book: what stands on each page, and how pages are pressed from templates."""
