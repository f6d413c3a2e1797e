"""What the API sends, as models that OpenAPI can show."""
