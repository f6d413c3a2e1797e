"""The page and the programming interface over HTTP."""
