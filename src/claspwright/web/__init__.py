"""The bench's server: routes and models; no arithmetic."""

from claspwright.web.application import create_app
from claspwright.web.serve import Network, serve

__all__ = ["Network", "create_app", "serve"]
