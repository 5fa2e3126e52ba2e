"""Documents by revision and the log by event, kept in a database."""
