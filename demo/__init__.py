"""A tank of our own: an invented description and log, the plan they lead to, and the truth."""
