"""Use cases of the bench: a laboratory's folder, its cases, revisions and work."""
