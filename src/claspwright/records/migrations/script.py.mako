"""${message}."""
