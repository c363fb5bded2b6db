"""The shop's own data, and what it reckons from a job: what to buy, what it costs."""
