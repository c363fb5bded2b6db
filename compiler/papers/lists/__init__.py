"""What is counted and listed: parts, bands, hardware, steps; as rows for pages and spreadsheets."""
