"""`python -m claspwright.cli`."""

from claspwright.cli.commands import main

main()
