"""The bench's server: routes and models; no arithmetic."""

from claspwright.web.application import create_app
from claspwright.web.serve import serve

__all__ = ["create_app", "serve"]
